import type { Hydroxide } from '../alkali';
import { above, amount } from '../check';
import type { Source } from '../source';

interface Saturation {
  readonly celsius: number;
  /** Grams of hydroxide that 100 g of water hold. */
  readonly per100: number;
  /** What is at the bottom when there is more. */
  readonly phase: string;
}

const TABLE: Source = { text: 'physico-chemical table of solubilities 04-26 (romek.info)', grade: 'B' };

const SATURATION: Readonly<Record<Hydroxide, readonly Saturation[]>> = {
  NaOH: [
    { celsius: 0, per100: 42, phase: 'NaOH·4H₂O' },
    { celsius: 20, per100: 109, phase: 'NaOH·H₂O' },
    { celsius: 40, per100: 129, phase: 'NaOH·H₂O' },
    { celsius: 60, per100: 174, phase: 'NaOH·H₂O' },
  ],
  KOH: [
    { celsius: 0, per100: 97, phase: 'KOH·2H₂O' },
    { celsius: 20, per100: 112, phase: 'KOH·2H₂O' },
    { celsius: 100, per100: 178, phase: 'KOH·H₂O' },
  ],
};

/**
 * `dissolved`: a published point at or below this temperature still holds it. `crystallises`: a published point at or above it no longer
 * does. `not-known`: between two points, or outside them; the table is not interpolated, since hydrates form between its points.
 */
export type Solubility =
  | { readonly kind: 'dissolved'; readonly source: Source }
  | { readonly kind: 'crystallises'; readonly phase: string; readonly source: Source }
  | { readonly kind: 'not-known'; readonly phase: string; readonly note: string | null; readonly source: Source };

/** The warmest any hydrate of NaOH forms from lye of 50 % or less. */
const NO_HYDRATE_ABOVE = 16;
const STRONGEST = 100;
const NO_HYDRATE: Source = { text: 'no hydrate of NaOH sets from lye of 50 % or less above 16 °C', grade: 'memory' };
const COLD_HYDRATES: Source = { text: 'NaOH of 38–40 % sets to hydrates below about 15 °C, 50 % at 12–15 °C', grade: 'memory' };

/**
 * What one hydroxide does in its water at the coldest the lye will get.
 * @param hydroxideMass grams of pure hydroxide; `water` grams of water it has; `celsius` the coldest.
 */
export const solubility = (hydroxide: Hydroxide, hydroxideMass: number, water: number, celsius: number): Solubility => {
  const per100 = (100 * amount(hydroxideMass, 'a mass of hydroxide')) / above(water, 'the mass of water');
  if (!Number.isFinite(celsius)) throw new RangeError('a temperature must be a number');
  const points = SATURATION[hydroxide];
  const colder = points.findLast((p) => p.celsius <= celsius);
  const warmer = points.find((p) => p.celsius >= celsius);
  if (colder !== undefined && per100 <= colder.per100) return { kind: 'dissolved', source: TABLE };
  if (warmer !== undefined && per100 > warmer.per100) return { kind: 'crystallises', phase: warmer.phase, source: TABLE };
  if (hydroxide === 'NaOH' && celsius >= NO_HYDRATE_ABOVE && per100 <= STRONGEST) return { kind: 'dissolved', source: NO_HYDRATE };
  const phase = (colder ?? warmer)?.phase ?? 'a hydrate';
  const hydrates = hydroxide === 'NaOH' && celsius < NO_HYDRATE_ABOVE;
  return { kind: 'not-known', phase, note: hydrates ? COLD_HYDRATES.text : null, source: hydrates ? COLD_HYDRATES : TABLE };
};

/** Grams of hydroxide that 100 g of water hold, where it is published; `null` elsewhere: between the points nothing is interpolated. */
export const saturation = (hydroxide: Hydroxide, celsius: number): number | null =>
  SATURATION[hydroxide].find((p) => p.celsius === celsius)?.per100 ?? null;
