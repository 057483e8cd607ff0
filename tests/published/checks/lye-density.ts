import type { Hydroxide } from '#lib/soap/alkali';
import { lyeDensity } from '#lib/soap/lye/density';
import { modelDensity } from '#lib/soap/lye/density-model';
import { checks, type Check } from './check';

const lye = (hydroxide: Hydroxide, fraction: number, celsius: number): number =>
  lyeDensity(hydroxide === 'NaOH' ? { naoh: fraction, koh: 0 } : { naoh: 0, koh: fraction }, celsius).value / 1000;

const density = (hydroxide: Hydroxide, percent: number, celsius: number): Pick<Check, 'subject' | 'quantity' | 'unit' | 'ours'> => ({
  subject: `${hydroxide} ${Number(percent.toFixed(2))} %`,
  quantity: `density at ${celsius} °C`,
  unit: 'g/cm³',
  ours: () => lye(hydroxide, percent / 100, celsius),
});

const CRC = 'CRC Handbook 102nd ed. (2021), concentrative properties, 20 °C';

/** The last digit that is printed, and 0.02 % where the next table's digits are laid through. */
const NAOH_AT_20: readonly (readonly [number, number])[] = [
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
];

const KOH_AT_20: readonly (readonly [number, number])[] = [
  [1, 1.0068],
  [3, 1.0242],
  [6, 1.0509],
  [8, 1.069],
  [10, 1.0873],
  [14, 1.1246],
  [15, 1.1341],
  [16, 1.1435],
  [18, 1.1626],
  [20, 1.1818],
  [22, 1.2014],
  [24, 1.221],
  [26, 1.2408],
  [28, 1.2609],
  [34, 1.323],
  [36, 1.3444],
  [38, 1.3661],
  [42, 1.4104],
  [44, 1.4331],
  [46, 1.456],
  [48, 1.4791],
  [50, 1.5024],
];

const EVALUATED_AT = [10, 25, 40, 55, 70, 85] as const;
const EVALUATED: readonly (readonly [molality: number, densities: readonly number[]])[] = [
  [0.2, [1.00893, 1.00584, 1.00078, 0.99414, 0.98615, 0.97696]],
  [1, [1.0434, 1.03911, 1.03323, 1.0261, 1.0179, 1.00878]],
  [1.6, [1.06762, 1.0627, 1.05629, 1.0488, 1.04048, 1.03146]],
  [2.5, [1.10191, 1.09626, 1.08915, 1.0812, 1.0727, 1.06383]],
  [3, [1.12001, 1.11402, 1.10659, 1.0984, 1.0898, 1.08098]],
  [3.5, [1.13748, 1.13118, 1.12347, 1.11508, 1.10637, 1.09756]],
  [4.5, [1.1707, 1.16378, 1.15562, 1.14691, 1.13799, 1.12904]],
  [5.5, [1.20186, 1.19421, 1.18576, 1.17687, 1.16771, 1.15837]],
  [6, [1.21677, 1.20866, 1.20013, 1.19121, 1.18192, 1.17227]],
];

const HANDBOOK_AT = [20, 30, 40, 60, 80] as const;
const HANDBOOK: readonly (readonly [percent: number, densities: readonly number[]])[] = [
  [24, [1.2629, 1.257, 1.2512, 1.2388, 1.2259]],
  [28, [1.3064, 1.3003, 1.2942, 1.2814, 1.2682]],
  [32, [1.349, 1.3426, 1.3362, 1.3232, 1.3097]],
  [36, [1.39, 1.3834, 1.3768, 1.3634, 1.3498]],
  [40, [1.43, 1.4232, 1.4164, 1.4027, 1.3889]],
  [44, [1.4685, 1.4615, 1.4545, 1.4405, 1.4266]],
  [48, [1.5065, 1.4993, 1.4922, 1.4781, 1.4641]],
  [50, [1.5253, 1.5181, 1.5109, 1.4967, 1.4827]],
];

/** KOH at 18 °C. */
const CRACOW: readonly (readonly [number, number])[] = [
  [5, 1.045],
  [10, 1.091],
  [15, 1.139],
  [20, 1.188],
  [25, 1.238],
  [30, 1.29],
  [35, 1.344],
  [40, 1.4],
];

const MODEL: readonly (readonly [Hydroxide, number, number])[] = [
  ['NaOH', 5, 1053.2],
  ['NaOH', 10, 1108.5],
  ['NaOH', 20, 1218.7],
  ['NaOH', 25, 1272.8],
  ['NaOH', 30, 1325.7],
  ['NaOH', 40, 1426],
  ['NaOH', 50, 1516.3],
  ['KOH', 5, 1043.8],
  ['KOH', 10, 1090.4],
  ['KOH', 20, 1187.2],
  ['KOH', 25, 1237.5],
  ['KOH', 30, 1289.2],
  ['KOH', 40, 1397.2],
  ['KOH', 45, 1453.8],
  ['KOH', 50, 1512.3],
];

const fraction = (molality: number): number => (molality * 39.99676928) / (1000 + molality * 39.99676928);

export const LYE_DENSITY_CHECKS: readonly Check[] = [
  ...checks(NAOH_AT_20, ([percent, published]) => ({
    ...density('NaOH', percent, 20),
    source: CRC,
    grade: 'B' as const,
    published,
    within: 0.0003,
  })),
  ...checks(KOH_AT_20, ([percent, published]) => ({
    ...density('KOH', percent, 20),
    source: CRC,
    grade: 'B' as const,
    published,
    within: 0.007 * published,
    because: 'this column lies up to 0.66 % below the model and below other tables: compared within 0.7 %',
  })),
  ...checks(CRACOW, ([percent, published]) => ({
    ...density('KOH', percent, 18),
    source: 'Cracow University of Technology, fizyka.pk.edu.pl, densities at 18 °C',
    grade: 'C' as const,
    published,
    within: 0.0025,
    because: 'printed to a thousandth',
  })),
  ...EVALUATED.flatMap(([molality, densities]) =>
    checks(
      EVALUATED_AT.map((celsius, i) => [celsius, densities[i] ?? Number.NaN] as const),
      ([celsius, published]) => ({
        ...density('NaOH', 100 * fraction(molality), celsius),
        subject: `NaOH ${molality} mol/kg`,
        source: 'advancedthermo.com, evaluated table consistent with IAPWS-95',
        grade: 'B' as const,
        published,
        within: 0.001 * published,
        because: 'tables differ among themselves by up to 0.34 %; ours is held to 0.1 %',
      }),
    ),
  ),
  ...HANDBOOK.flatMap(([percent, densities]) =>
    checks(
      HANDBOOK_AT.map((celsius, i) => [celsius, densities[i] ?? Number.NaN] as const),
      ([celsius, published]) => ({
        ...density('NaOH', percent, celsius),
        source: 'caustic soda handbook table, 24–50 %, 20–100 °C',
        grade: 'C' as const,
        published,
        within: 0.0005,
        because: 'another table rules at 20 °C',
      }),
    ),
  ),
  ...checks(MODEL, ([hydroxide, percent, published]) => ({
    subject: `${hydroxide} ${percent} %`,
    quantity: 'density at 20 °C, the model alone',
    unit: 'kg/m³',
    source: 'M. Laliberté, J. Chem. Eng. Data 54 (2009) 1725–1760',
    grade: 'computed' as const,
    published,
    ours: () => modelDensity(hydroxide, percent / 100, 20),
    within: 0.06,
  })),
  ...checks(
    MODEL.filter(([hydroxide]) => hydroxide === 'NaOH'),
    ([hydroxide, percent, published]) => ({
      ...density(hydroxide, percent, 20),
      quantity: 'density at 20 °C against the model',
      unit: 'kg/m³',
      ours: () => 1000 * lye(hydroxide, percent / 100, 20),
      source: 'M. Laliberté, J. Chem. Eng. Data 54 (2009) 1725–1760',
      grade: 'computed' as const,
      published,
      within: 0.007 * published,
      because: 'the model falls short of three tables for strong NaOH, by 0.6 % at 50 %',
    }),
  ),
];
