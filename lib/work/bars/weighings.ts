import { standingWeights } from './standing';
import type { BarsState, BarWeight } from './state';

/** The followed bars on one day of the calendar where they were weighed. Masses in mg. */
export interface Weighing {
  /** Of the last bar weighed that day. */
  readonly wall: number;
  /** Bars that were weighed the first time as well: only those are compared. */
  readonly bars: number;
  /** Σ now, and Σ of the same bars the first time. */
  readonly sum: number;
  readonly first: number;
  /** Largest division of a scale among them; 0 where all were typed. */
  readonly step: number;
}

const DAY_MS = 86_400_000;

/** Days since 1970 where the entry was made. */
const dayOf = ({ wall, offsetMin }: BarWeight): number => Math.floor((wall + offsetMin * 60_000) / DAY_MS);

const byDay = (weights: readonly BarWeight[]): readonly (readonly BarWeight[])[] => {
  const days = new Map<number, BarWeight[]>();
  for (const weight of weights) days.set(dayOf(weight), [...(days.get(dayOf(weight)) ?? []), weight]);
  return [...days.values()];
};

/** A bar weighed twice a day counts as it was last. */
const newestOf = (weights: readonly BarWeight[]): ReadonlyMap<number, BarWeight> =>
  new Map(weights.flatMap((weight) => (weight.bar === null ? [] : [[weight.bar, weight] as const])));

/**
 * Weighings of the bars that are followed, oldest first, each day one; `first` is the same bars' weight the first time, so that a bar that
 * was left out on a day does not count as lost. Days on which none of them was weighed are none.
 */
export const weighingsOf = (state: BarsState): readonly Weighing[] => {
  const days = byDay(standingWeights(state, 'cure')).map(newestOf);
  const [start] = days;
  if (start === undefined) return [];
  return days.flatMap((day) => {
    const common = [...day.values()].flatMap((now) => {
      const first = start.get(now.bar ?? 0);
      return first === undefined ? [] : [{ now, first }];
    });
    const last = common.at(-1);
    if (last === undefined) return [];
    return [
      {
        wall: Math.max(...common.map(({ now }) => now.wall)),
        bars: common.length,
        sum: common.reduce((sum, { now }) => sum + now.net, 0),
        first: common.reduce((sum, { first }) => sum + first.net, 0),
        step: Math.max(...common.map(({ now }) => now.scale?.step ?? 0)),
      },
    ];
  });
};

/** Numbers of the bars that are followed: those weighed the first time, in that order. */
export const followed = (state: BarsState): readonly number[] => {
  const [start] = byDay(standingWeights(state, 'cure')).map(newestOf);
  return [...(start?.keys() ?? [])];
};
