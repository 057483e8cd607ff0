import type { BarsRow } from '#lib/protocol/bars';
import type { Due } from '#lib/work/bars/due';

export interface DueLot {
  readonly row: BarsRow;
  readonly what: Due;
}

/** What is due at one place: one lot, or several that one walk there is enough for. */
export interface DueGroup {
  readonly what: Due;
  readonly place: string;
  readonly rows: readonly BarsRow[];
}

/** In the order things are done. */
const ORDER: readonly Due[] = ['unmould', 'cut', 'weigh', 'photo', 'ready'];
/** Done lot after lot where they stand. */
const TOGETHER: ReadonlySet<Due> = new Set(['weigh', 'photo']);

/** What is due, most pressing first; photographs and weighings of one place are one group. */
export const groupedDues = (dues: readonly DueLot[]): readonly DueGroup[] => {
  const groups = new Map<string, DueGroup>();
  for (const { row, what } of dues.toSorted((a, b) => ORDER.indexOf(a.what) - ORDER.indexOf(b.what))) {
    const place = row.place?.name ?? row.mould.name;
    const key = TOGETHER.has(what) ? `${what} ${place}` : `${what} ${row.id} of ${place}`;
    groups.set(key, { what, place, rows: [...(groups.get(key)?.rows ?? []), row] });
  }
  return [...groups.values()];
};
