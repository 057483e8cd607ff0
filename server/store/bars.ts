import type Database from 'better-sqlite3';
import type { BarsList, BarsRow } from '#lib/protocol/bars';
import type { BarsState } from '#lib/work/bars/index';
import type { DerivedRows } from './derived-rows';
import { isDone } from './project-bars';
import type { Folded } from './project';
import type { Standing } from './standing';
import type { Store } from './store';
import { prepare, query } from './tables';

type Bars = Store['bars'];

/** Both ways to read the list page alike: newest first, by the number of the line that began each lot. */
interface Source {
  startOf(lot: string): number | undefined;
  older(before: number, limit: number): readonly string[];
  /** Those of which something is left to be made, kept or sold. */
  open(): readonly string[];
  of(batch: string): readonly string[];
  /** Those in whose row a text stands. */
  saying(text: string): readonly string[];
}

const rowOf = (text: string): BarsRow => JSON.parse(text) as BarsRow;

const paged = (source: Source): Bars => ({
  list: async ({ before, limit }): Promise<BarsList> => {
    const start = before === null ? Number.MAX_SAFE_INTEGER : source.startOf(before);
    if (start === undefined) return { bars: [], next: null };
    const texts = source.older(start, limit + 1);
    const bars = texts.slice(0, limit).map(rowOf);
    return { bars, next: texts.length > limit ? (bars.at(-1)?.id ?? null) : null };
  },
  open: async () => source.open().map(rowOf),
  of: async (batch) => source.of(batch).map(rowOf),
  serving: async () => source.saying(SERVES).map(rowOf),
  wrapped: async () => source.saying(WRAPPED).map(rowOf),
  onceWrapped: async () => source.saying(ONCE_WRAPPED).map(rowOf),
});

/** So the text of a row reads that names an order: its own text always has the same form, and what a person types has its quotes escaped. */
const SERVES = '"orders":[{';
/** And so one of which something was wrapped. */
const WRAPPED = '"wrapped":{"bars":';
const ONCE_WRAPPED = '"onceWrapped":[{';

/** Keys of one batch's lots stand between these two: a stroke, and the letter after it. */
const between = (batch: string): { readonly from: string; readonly to: string } => ({ from: `bars:${batch}/`, to: `bars:${batch}0` });

/** The list as committed with the entries. */
export const storedBars = (db: Database.Database, standing: Standing): Bars => {
  const start = prepare<{ lot: string }>(db)(({ lot }) => query.selectFrom('bars_rows').select('start_seq').where('lot', '=', lot));
  const older = prepare<{ before: number; limit: number }>(db)(({ before, limit }) =>
    query.selectFrom('bars_rows').select('row').where('start_seq', '<', before).orderBy('start_seq', 'desc').limit(limit),
  );
  const open = prepare<{ done: number }>(db)(({ done }) =>
    query.selectFrom('bars_rows').select('row').where('done', '=', done).orderBy('start_seq', 'desc'),
  );
  const of = prepare<{ from: string; to: string }>(db)(({ from, to }) =>
    query.selectFrom('bars_rows').select('row').where('lot', '>=', from).where('lot', '<', to).orderBy('start_seq'),
  );
  const saying = prepare<{ text: string }>(db)(({ text }) =>
    query.selectFrom('bars_rows').select('row').where('row', 'like', text).orderBy('start_seq', 'desc'),
  );
  const texts = (read: () => readonly { readonly row: string }[]): readonly string[] =>
    standing.read(() => [...read()]).map(({ row }) => row);
  return paged({
    startOf: (lot) => standing.read(() => start.get({ lot }))?.start_seq,
    older: (before, limit) => texts(() => older.all({ before, limit })),
    open: () => texts(() => open.all({ done: 0 })),
    of: (batch) => texts(() => of.all(between(batch))),
    saying: (text) => texts(() => saying.all({ text: `%${text}%` })),
  });
};

/** The list as it follows from the lines that could be read: for a damaged file, whose own list is not to be trusted. */
export const derivedBars = ({ bars }: DerivedRows): Bars => {
  const newestFirst = [...bars].toSorted(([, a], [, b]) => b.startSeq - a.startSeq);
  const texts = (keep: (lot: string, folded: Folded<BarsState>) => boolean): readonly string[] =>
    newestFirst.filter(([lot, folded]) => keep(lot, folded)).map(([, { row }]) => row);
  return paged({
    startOf: (lot) => bars.get(lot)?.startSeq,
    older: (before, limit) => texts((_, { startSeq }) => startSeq < before).slice(0, limit),
    open: () => texts((_, { state }) => !isDone(state)),
    saying: (text) => texts((_, { row }) => row.includes(text)),
    of: (batch) => texts((lot) => lot.startsWith(between(batch).from)).toReversed(),
  });
};
