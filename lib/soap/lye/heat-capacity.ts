import type { Hydroxide } from '../alkali';
import { amount, within } from '../check';
import { curve, type Point } from '../curve';
import type { Estimate, Source } from '../source';
import { MODEL } from './density-model';
import type { Strength } from './density';

/** Water at 0.1 MPa, J/(g K) by °C: the table Laliberté's model is used with (grade B). */
const WATER: readonly Point[] = [
  [0, 4.21944],
  [10, 4.19545],
  [20, 4.1848],
  [25, 4.1819],
  [30, 4.18002],
  [40, 4.17886],
  [50, 4.17956],
  [60, 4.18277],
  [70, 4.1881],
  [80, 4.19552],
  [90, 4.20502],
  [100, 4.21664],
  [120, 4.24637],
];

/** Specific heat of water, J/(g K), 0–120 °C. */
export const waterHeatCapacity = curve(WATER);

/** Coefficients a1 to a6 of the dissolved hydroxide, and the mass fraction the fit ends at. */
const SOLUTE: Readonly<
  Record<Hydroxide, { readonly a: readonly [number, number, number, number, number, number]; readonly fittedTo: number }>
> = {
  NaOH: {
    a: [-0.922780764834469, -0.0412353462450485, 1.8722524604359, -5.94223565147303, 3.13007617842649, 0.141040805508813],
    fittedTo: 0.303,
  },
  KOH: {
    a: [-0.612709529812129, -0.0454225316920391, 1.87598005977999, -5.62731016809735, 2.42547035549534, 1.24500822569176],
    fittedTo: 0.465,
  },
};

const soluteHeatCapacity = (hydroxide: Hydroxide, w: number, celsius: number): number => {
  const [a1, a2, a3, a4, a5, a6] = SOLUTE[hydroxide].a;
  return a1 * Math.exp(a2 * celsius + a3 * Math.exp(0.01 * celsius) + a4 * w) + a5 * w ** a6;
};

/** An older table, Perry's at 20 °C (from memory), lies 4 to 5 % below the model for strong NaOH: half-width 5 %, nothing known inside. */
const DISAGREEMENT = 0.05 / Math.sqrt(3);
const BEYOND_THE_FIT = 0.02;

const SOURCE: Source = {
  text: `${MODEL.text}; fitted to 30.3 % of NaOH and 46.5 % of KOH and carried on beyond; Perry's at 20 °C lies 4–5 % lower for strong NaOH`,
  grade: 'B',
};

/** Specific heat of lye in J/(g K), 0–50 % of hydroxide in all, 4–100 °C. @throws RangeError outside */
export const lyeHeatCapacity = ({ naoh, koh }: Strength, celsius: number): Estimate => {
  const w = amount(naoh, 'the strength in NaOH') + amount(koh, 'the strength in KOH');
  within(w, 0, 0.5, 'the heat capacity of lye, by mass fraction of hydroxide,');
  within(celsius, 4, 100, 'the heat capacity of lye, in °C,');
  const solute = (hydroxide: Hydroxide, part: number): number => (part === 0 ? 0 : part * soluteHeatCapacity(hydroxide, w, celsius));
  const value = (1 - w) * waterHeatCapacity(celsius) + solute('NaOH', naoh) + solute('KOH', koh);
  const beyond = (naoh > 0 && w > SOLUTE.NaOH.fittedTo) || (koh > 0 && w > SOLUTE.KOH.fittedTo) ? BEYOND_THE_FIT : 0;
  const strong = Math.min(1, w / 0.2);
  return { value, u: value * Math.hypot(0.003, strong * DISAGREEMENT, beyond), source: SOURCE };
};
