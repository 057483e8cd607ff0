import type { Point } from '../curve';
import type { Source } from '../source';

export const CRC: Source = {
  text: 'CRC Handbook 102nd ed. (2021), concentrative properties of aqueous solutions, 20 °C',
  grade: 'B',
};

/** g/cm³ at 20 °C by mass %. NaOH above 40 % from the handbook table below, which agrees with CRC to 0.01 % where they overlap. */
export const NAOH_AT_20: readonly Point[] = [
  [0, 0.9982],
  [1, 1.0095],
  [2, 1.0207],
  [4, 1.0428],
  [5, 1.0538],
  [6, 1.0648],
  [8, 1.0869],
  [10, 1.1089],
  [12, 1.1309],
  [15, 1.164],
  [18, 1.1971],
  [20, 1.2192],
  [22, 1.2412],
  [24, 1.2631],
  [26, 1.2848],
  [28, 1.3064],
  [34, 1.3697],
  [36, 1.3901],
  [38, 1.4102],
  [40, 1.4299],
  [44, 1.4685],
  [48, 1.5065],
  [50, 1.5253],
];

export const EVALUATED: Source = {
  text: 'evaluated table consistent with IAPWS-95, advancedthermo.com, density of NaOH(aq)',
  grade: 'B',
};

/** NaOH, g/cm³: mol per kg of water, then 10, 25, 40, 55, 70 and 85 °C. */
export const NAOH_EVALUATED_AT = [10, 25, 40, 55, 70, 85] as const;
export const NAOH_EVALUATED: readonly (readonly [molality: number, ...number[]])[] = [
  [0.5, 1.02222, 1.0186, 1.01322, 1.00639, 0.99832, 0.98913],
  [1, 1.0434, 1.03911, 1.03323, 1.0261, 1.0179, 1.00878],
  [2, 1.08315, 1.07787, 1.07114, 1.06343, 1.05503, 1.04609],
  [3, 1.12001, 1.11402, 1.10659, 1.0984, 1.0898, 1.08098],
  [4, 1.15437, 1.14776, 1.1398, 1.13124, 1.12243, 1.11357],
  [5, 1.18652, 1.17925, 1.17093, 1.16212, 1.15308, 1.14397],
  [6, 1.21677, 1.20866, 1.20013, 1.19121, 1.18192, 1.17227],
];

export const CAUSTIC_HANDBOOK: Source = {
  text: 'caustic soda handbook table, 24–50 % and 20–100 °C (soapworld.biz; as International Critical Tables III, 79)',
  grade: 'C',
};

/** NaOH, g/cm³: mass %, then 20, 40, 60, 80 and 100 °C. */
export const NAOH_HANDBOOK_AT = [20, 40, 60, 80, 100] as const;
export const NAOH_HANDBOOK: readonly (readonly [percent: number, ...number[]])[] = [
  [24, 1.2629, 1.2512, 1.2388, 1.2259, 1.2124],
  [28, 1.3064, 1.2942, 1.2814, 1.2682, 1.2546],
  [32, 1.349, 1.3362, 1.3232, 1.3097, 1.296],
  [36, 1.39, 1.3768, 1.3634, 1.3498, 1.336],
  [40, 1.43, 1.4164, 1.4027, 1.3889, 1.375],
  [44, 1.4685, 1.4545, 1.4405, 1.4266, 1.4127],
  [48, 1.5065, 1.4922, 1.4781, 1.4641, 1.4503],
  [50, 1.5253, 1.5109, 1.4967, 1.4827, 1.469],
];
