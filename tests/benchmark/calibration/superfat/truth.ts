import type { Random } from '../random';

/**
 * What is true of a simulated workshop: lots, papers and scales. Written from what the statements mean (a standard's range, a laboratory's
 * reproducibility, a label, a division), never from how the program believes them: none of its shapes is the program's, some are narrower
 * and some wider, and nothing here is imported from it.
 */

/** One lot's value inside a range, most often about a usual value. Each world has its own way. */
export type Spread = (random: Random, low: number, usual: number, high: number) => number;

/** Suppliers that hold a middle of their own: nearly normal about it, cut off at the range. */
const suppliers: Spread = (random, low, usual, high) => {
  for (;;) {
    const side = (x: number): number => usual + (x < 0 ? x * (usual - low) : x * (high - usual));
    const x = 0.46 * random.gauss();
    if (Math.abs(x) <= 1) return side(x);
  }
};

/** Harvests: a parabola over the whole range (the middle of three even draws), shifted to the usual value. */
const harvests: Spread = (random, low, usual, high) => {
  const [, middle = 0.5] = [random.unit(), random.unit(), random.unit()].toSorted((a, b) => a - b);
  return middle < 0.5 ? low + 2 * middle * (usual - low) : usual + (2 * middle - 1) * (high - usual);
};

/** A trade in which two lots of three are as usual and the third is anything the standard allows. */
const mixedTrade: Spread = (random, low, usual, high) => {
  if (random.chance(0.36)) return random.between(low, high);
  const x = random.between(-1, 1) * random.between(0, 0.8);
  return usual + (x < 0 ? x * (usual - low) : x * (high - usual));
};

/** Blenders: a raised cosine, narrower than most. */
const blenders: Spread = (random, low, usual, high) => {
  for (;;) {
    const x = random.between(-1, 1);
    if (random.unit() < 0.5 * (1 + Math.cos(Math.PI * x))) return usual + (x < 0 ? x * (usual - low) : x * (high - usual));
  }
};

export const SPREADS: readonly [Spread, ...Spread[]] = [suppliers, harvests, mixedTrade, blenders];

/** What a laboratory writes of a saponification value: its own bias, evenly up to 0.7 %, and a titration of 0.3 %. ISO 3657 in sum. */
export const titrated = (random: Random, sv: number): number => sv * (1 + random.between(-0.007, 0.007) + 0.003 * random.gauss());

/** What a laboratory writes with a stated standard uncertainty: half of it bias, the rest chance. */
export const stated = (random: Random, value: number, u: number): number =>
  value + u * (random.between(-1.2, 1.2) + Math.sqrt(1 - 0.48) * random.gauss());

/** A hydroxide within a point of its label: mostly less, by what it drew from the air; else anywhere in the width. */
export const underLabel = (random: Random, label: number): number =>
  label + (random.chance(0.5) ? random.between(-0.01, 0.01) : 0.01 * Math.cos(Math.PI * random.unit()) * random.between(0.6, 1));

/** A scale: what it makes of a mass, mg. */
export interface TrueScale {
  readonly gain: number;
  readonly division: number;
  read(mass: number): number;
}

/** `noise`: standard deviation of one reading before it is rounded, mg. */
export const trueScale = (random: Random, division: number, gain: number, noise: number): TrueScale => ({
  gain,
  division,
  read: (mass) => division * Math.round((mass * (1 + gain) + noise * random.gauss()) / division),
});

/** Never checked: a few makers, each evenly off by where it was adjusted; checked before: what a known mass leaves. */
export const gainOf = (random: Random, checked: boolean): number =>
  checked ? random.between(-0.0005, 0.0005) : random.between(-0.0013, 0.0013) + 0.0006 * random.gauss();

/** Moles of hydroxide: NaOH 39.997, KOH 56.105 (CIAAW atomic weights, rounded). */
export const trueSuperfat = (
  fats: readonly { readonly grams: number; readonly sv: number }[],
  soda: { readonly grams: number; readonly purity: number },
): number => {
  const demand = fats.reduce((sum, { grams, sv }) => sum + (grams * sv) / 56.105, 0) / 1000;
  return 1 - (soda.grams * soda.purity) / 39.997 / demand;
};
