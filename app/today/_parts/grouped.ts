import type { BarsRow } from '#lib/protocol/bars';
import type { Due } from '#lib/work/bars/due';

export interface DueLot {
  readonly row: BarsRow;
  readonly what: Due;
  /** Wall time before which it has to be cut; `null`: nobody said, or it is cut. */
  readonly before: number | null;
}

/** What is due at one place: one lot, or several that one walk there is enough for. */
interface DueGroup {
  readonly what: Due;
  readonly place: string;
  readonly before: number | null;
  readonly rows: readonly BarsRow[];
}

/** In the order things are done. */
const ORDER: readonly Due[] = ['unmould', 'cut', 'weigh', 'photo', 'ready'];
/** Done lot after lot where they stand. */
const TOGETHER: ReadonlySet<Due> = new Set(['weigh', 'photo']);

const soonest = (a: DueLot, b: DueLot): number => {
  const [first, second] = [a.before ?? Number.MAX_VALUE, b.before ?? Number.MAX_VALUE];
  return first === second ? ORDER.indexOf(a.what) - ORDER.indexOf(b.what) : first - second;
};

/** What is due, most pressing first: what has to be cut by an hour, then in the order things are done; photographs and weighings of one place are one group. */
export const groupedDues = (dues: readonly DueLot[]): readonly DueGroup[] => {
  const groups = new Map<string, DueGroup>();
  for (const { row, what, before } of dues.toSorted(soonest)) {
    const place = row.place?.name ?? row.mould.name;
    const key = TOGETHER.has(what) ? `${what} ${place}` : `${what} ${row.id} of ${place}`;
    groups.set(key, { what, place, before, rows: [...(groups.get(key)?.rows ?? []), row] });
  }
  return [...groups.values()];
};
