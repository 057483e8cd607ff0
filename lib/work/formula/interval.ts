import { spreadOf } from './scales';
import { superfatInterval, type SuperfatInterval } from '#lib/soap/superfat-interval';
import { sumOf } from '#lib/units/sum';
import type { AlkaliIn, FatIn } from './makeup';
import type { Scale } from './context';
import type { Whole } from './whole';

/** An interval, and the names of the portions its parts point to. */
export interface Believed {
  readonly interval: SuperfatInterval;
  readonly fats: readonly FatIn[];
  readonly alkalis: readonly AlkaliIn[];
}

interface Weighed<T> {
  readonly one: T;
  readonly u: number;
}

/**
 * How far the plan's superfat can be believed: what is known of the fats and the alkali, and what each line's scale can tell.
 * @param scales the scale of each item, in the model's order; `null` entries weigh exactly, for a card without a bench
 */
export const believed = (whole: Whole, scales: readonly (Scale | null)[]): Believed => {
  const spread = (at: number): number => {
    const scale = scales[at] ?? null;
    return scale === null ? 0 : (spreadOf(scale) ?? 0) / 1000;
  };
  // A line's doubt falls on its parts by mass: of a masterbatch they are all off together, which this takes as independent.
  const gather = <T extends { readonly mass: number }>(of: (at: number) => readonly T[]): readonly Weighed<T>[] =>
    whole.each.flatMap((_, at) => of(at).map((one) => ({ one, u: spread(at) * (one.mass / Math.max(whole.grams[at] ?? 0, one.mass)) })));
  const fats = merged(
    gather((at) => whole.each[at]?.fats ?? []).filter(({ one }) => one.mass > 0),
    ({ material, lot, sv }) => JSON.stringify([material, lot, sv]),
  );
  const alkalis = merged(
    gather((at) => whole.each[at]?.alkalis ?? []).filter(({ one }) => one.mass > 0),
    ({ material, lot, purity }) => JSON.stringify([material, lot, purity]),
  );
  const interval = superfatInterval({
    fats: fats.map(({ one, u }) => ({ ...one, uMass: u })),
    alkalis: alkalis.map(({ one, u }) => ({ ...one, uMass: u })),
    acids: whole.all.acids,
  });
  return { interval, fats: fats.map(({ one }) => one), alkalis: alkalis.map(({ one }) => one) };
};

/** Portions of one lot carry one doubt: added up first, their masses' doubts as independent readings. */
const merged = <T extends { readonly mass: number }>(all: readonly Weighed<T>[], key: (one: T) => string): readonly Weighed<T>[] => {
  const groups = new Map<string, Weighed<T>[]>();
  for (const weighed of all) {
    const of = key(weighed.one);
    groups.set(of, [...(groups.get(of) ?? []), weighed]);
  }
  return [...groups.values()].flatMap((group) => {
    const [first] = group;
    if (first === undefined) return [];
    return [{ one: { ...first.one, mass: sumOf(group, ({ one }) => one.mass) }, u: Math.hypot(...group.map(({ u }) => u)) }];
  });
};
