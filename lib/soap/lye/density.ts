import { amount, within } from '../check';
import { curve, type Point } from '../curve';
import { M_NAOH } from '../molar-mass';
import type { Estimate, Source } from '../source';
import {
  CAUSTIC_HANDBOOK,
  CRC,
  EVALUATED,
  NAOH_AT_20,
  NAOH_EVALUATED,
  NAOH_EVALUATED_AT,
  NAOH_HANDBOOK,
  NAOH_HANDBOOK_AT,
} from './density-tables';
import { modelDensity, MODEL, waterDensity } from './density-model';

/**
 * Which rules where, and why, from laying the published tables side by side:
 *
 * NaOH: the handbook tables. Three of them (CRC at 20 °C, the evaluated one below 19.4 %, the caustic-soda table from 24 %) agree within
 * 0.06 % wherever they can be compared. Laliberté's model does not: it lies 0.34 % above the evaluated table at 19.4 % and 55 °C,
 * 0.22 % above the caustic table at 32 % and 40 °C, 0.6 % below it at 50 % and 20 °C, and hardly lets strong lye expand at all.
 *
 * KOH: the model. CRC's column lies up to 0.66 % below it; an independent laboratory table at 18 °C (Cracow University of Technology,
 * fizyka.pk.edu.pl, grade C), 5 to 40 %, sides with the model within 0.2 %. The uncertainty covers CRC at k = 2.
 */
const NAOH_SOURCE: Source = {
  text: `${CRC.text}; carried to other temperatures by the ${EVALUATED.text} to 19.4 %, and the ${CAUSTIC_HANDBOOK.text} from 24 %`,
  grade: 'B',
};
const KOH_SOURCE: Source = { text: `${MODEL.text}; CRC's table at 20 °C lies up to 0.66 % lower`, grade: 'B' };
const MIX_SOURCE: Source = { text: `NaOH: ${NAOH_SOURCE.text}. KOH: ${KOH_SOURCE.text}. Volumes added by share`, grade: 'computed' };

const STRONGEST = 0.5;
const COLDEST = 10;
const HOTTEST = 85;

/** Mass fractions of pure hydroxide in hydroxide and water. */
export interface Strength {
  readonly naoh: number;
  readonly koh: number;
}

/**
 * Density of lye in kg/m³, 0–50 % of hydroxide in all, 10–85 °C.
 * @throws RangeError outside that region: nothing is extrapolated.
 */
export const lyeDensity = ({ naoh, koh }: Strength, celsius: number): Estimate => {
  const sum = amount(naoh, 'the strength in NaOH') + amount(koh, 'the strength in KOH');
  const total = within(sum, 0, STRONGEST, 'lye density, by mass fraction of hydroxide,');
  within(celsius, COLDEST, HOTTEST, 'lye density, in °C,');
  if (koh === 0) return naohDensity(total, celsius);
  if (naoh === 0) return kohDensity(total, celsius);
  const [soda, potash] = [naohDensity(total, celsius), kohDensity(total, celsius)];
  const value = total / (naoh / soda.value + koh / potash.value);
  return { value, u: value * (0.002 + Math.max(soda.u / soda.value, potash.u / potash.value)), source: MIX_SOURCE };
};

const kohDensity = (w: number, celsius: number): Estimate => {
  const value = modelDensity('KOH', w, celsius);
  // Half of what CRC differs by, which grows to 0.66 % at a third and stays there.
  return { value, u: value * (0.0005 + 0.0033 * Math.min(1, w / 0.34)), source: KOH_SOURCE };
};

const at20 = curve(NAOH_AT_20);

const naohDensity = (w: number, celsius: number): Estimate => {
  const value = 1000 * at20(100 * w) * expansion(w, celsius);
  // What the tables differ by; and below 20 °C the strong end is carried on by the curve of the rows above it.
  const beyond = w > 0.2 && celsius < 20 ? 0.0005 : 0;
  return { value, u: value * (0.0006 + beyond), source: NAOH_SOURCE };
};

/** Density over density at 20 °C, one curve in temperature for each strength that is tabulated. */
interface Row {
  readonly w: number;
  readonly ratio: (celsius: number) => number;
}

const row = (w: number, points: readonly Point[]): Row => {
  const density = curve(points);
  const reference = density(20);
  return { w, ratio: (celsius) => density(celsius) / reference };
};

const molalityToFraction = (m: number): number => (m * M_NAOH) / (1000 + m * M_NAOH);

/** The handbook starts at 20 °C: its curve through 20, 40 and 60 °C, which is nearly straight, carried on to 10 °C. */
const at10 = ([, d20 = 0, d40 = 0, d60 = 0]: readonly number[]): Point => [COLDEST, 1.875 * d20 - 1.25 * d40 + 0.375 * d60];

const ROWS: readonly Row[] = [
  { w: 0, ratio: (celsius) => waterDensity(celsius) / waterDensity(20) },
  ...NAOH_EVALUATED.map(([m, ...densities]) =>
    row(
      molalityToFraction(m),
      NAOH_EVALUATED_AT.map((t, i) => [t, densities[i] ?? Number.NaN] as const),
    ),
  ),
  ...NAOH_HANDBOOK.map((line) =>
    row(line[0] / 100, [at10(line), ...NAOH_HANDBOOK_AT.map((t, i) => [t, line[i + 1] ?? Number.NaN] as const)]),
  ),
];

const expansion = (w: number, celsius: number): number => curve(ROWS.map((r) => [r.w, r.ratio(celsius)] as const))(w);
