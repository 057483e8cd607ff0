import type { BarWeight } from '#lib/work/bars/index';
import type { Weighing } from '#lib/work/bars/weighings';

/** One day of the calendar on which bars were weighed. */
export interface WeighDay {
  readonly day: number;
  readonly wall: number;
  readonly offsetMin: number;
  readonly weights: readonly BarWeight[];
  /** What the followed bars came to; `null`: none of them was weighed that day. */
  readonly weighing: Weighing | null;
}

const DAY_MS = 86_400_000;

/** Weights of the cure by their days, each with the weighing that is worked out of it. */
export const weighDaysOf = (weights: readonly BarWeight[], weighings: readonly Weighing[]): readonly WeighDay[] => {
  const days = new Map<number, BarWeight[]>();
  for (const one of weights) {
    if (one.struck !== null || one.for !== 'cure') continue;
    const day = Math.floor((one.wall + one.offsetMin * 60_000) / DAY_MS);
    days.set(day, [...(days.get(day) ?? []), one]);
  }
  return [...days].map(([day, all]) => ({
    day,
    wall: all.at(-1)?.wall ?? 0,
    offsetMin: all.at(-1)?.offsetMin ?? 0,
    weights: all,
    // A weighing bears the wall time of the last of its bars; days without one are none of its list.
    weighing: weighings.find(({ wall }) => all.some((one) => one.wall === wall)) ?? null,
  }));
};
