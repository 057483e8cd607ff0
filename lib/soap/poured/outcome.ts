import { pourable, volumeAt } from '../batter';
import type { Estimate } from '../source';
import { sumOf } from '#lib/units/sum';
import type { Outcome, Pot } from './types';
import { wholeOf, type Whole } from './whole';

const total = ({ per, grams }: Whole, of: (one: Whole['per'][number]) => number): number =>
  per.reduce((sum, one, at) => sum + of(one) * (grams[at] ?? 0), 0);

export const superfatAt = (whole: Whole): number | null => {
  const demand = total(whole, (p) => p.demand);
  return demand > 0 ? 1 - (total(whole, (p) => p.supply) - total(whole, (p) => p.acid)) / demand : null;
};

/** Pure alkali and the whole solution, grams. */
export const lyeAt = (whole: Whole): { readonly pure: number; readonly solution: number } => ({
  pure: total(whole, (p) => p.pure),
  solution: total(whole, (p) => p.solution),
});

/** cm³; `null` outside what the tables know. */
export const batterAt = ({ sizing }: Pot, { all }: Whole): Estimate | null => {
  if (sizing === null) return null;
  try {
    return volumeAt(all, sizing.pourAt, sizing.calibration);
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
};

export const fullAt = ({ sizing }: Pot, { batter }: Whole, volume: number | null): number | null => {
  if (sizing === null || sizing.brim === null || volume === null || batter <= 0) return null;
  return Math.max(0, pourable(volume, batter, sizing)) / sizing.brim.value;
};

/** Σ cᵢ/Lᵢ in the driest bar; `null` where the limit of one that is in is missing. */
export const fragranceAt = ({ lines }: Pot, { grams, driest }: Whole): number | null => {
  const used = lines.flatMap(({ part, limit }, at) =>
    part === 'fragrance' && (grams[at] ?? 0) > 0 ? [{ limit, mass: grams[at] ?? 0 }] : [],
  );
  if (used.length === 0) return 0;
  if (driest <= 0 || used.some(({ limit }) => limit === null)) return null;
  return sumOf(used, ({ limit, mass }) => mass / driest / (limit ?? 1));
};

export const fragranceMass = ({ lines }: Pot, { grams }: Whole): number =>
  lines.reduce((sum, { part }, at) => (part === 'fragrance' ? sum + (grams[at] ?? 0) : sum), 0);

/** Working values for masses that need not be anybody's: what a remedy would come to. @throws RangeError for a mass below zero */
export const outcomeAt = (pot: Pot, grams: readonly number[]): Outcome => {
  const whole = wholeOf(pot, grams);
  const { fats, batter } = whole;
  const { pure, solution } = lyeAt(whole);
  const volume = batterAt(pot, whole)?.value ?? null;
  return {
    superfat: superfatAt(whole),
    lye: solution > 0 ? pure / solution : null,
    shares: pot.lines.map(({ part }, at) => (part === 'fat' && fats > 0 ? (grams[at] ?? 0) / fats : 0)),
    fats,
    batter,
    load: fats > 0 ? fragranceMass(pot, whole) / fats : null,
    fragrance: fragranceAt(pot, whole),
    volume,
    full: fullAt(pot, whole, volume),
  };
};
