import type { Day } from '#lib/units/day';

/** Bars come onto the shelf, or leave it. */
export interface OnShelf {
  readonly day: Day;
  /** Negative: leave. */
  readonly bars: number;
}

/** Days on which more bars are to lie there than there is room for, and by how many; the first day of each stretch. */
export const overfull = (
  lying: number,
  moves: readonly OnShelf[],
  room: number,
): readonly { readonly day: Day; readonly over: number }[] => {
  const days = new Map<Day, number>();
  for (const { day, bars } of moves) days.set(day, (days.get(day) ?? 0) + bars);
  const found: { day: Day; over: number }[] = [];
  let there = lying;
  let was = there > room;
  for (const [day, bars] of [...days].toSorted(([a], [b]) => a.localeCompare(b))) {
    there += bars;
    const last = found.at(-1);
    if (there > room && !was) found.push({ day, over: there - room });
    else if (there > room && last !== undefined) last.over = Math.max(last.over, there - room);
    was = there > room;
  }
  return found;
};
