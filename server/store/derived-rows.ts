import type Database from 'better-sqlite3';
import { isAboutBars } from '#lib/work/bars/index';
import type { BarsEntry, BarsState } from '#lib/work/bars/index';
import type { BatchState, Entry } from '#lib/work/batch/index';
import { foldBars, isDone } from './project-bars';
import { foldEntry } from './project-batches';
import type { Folded } from './project';
import { prepare, query } from './tables';

/** The lists as they follow from the lines, each by the key of its stream. */
export interface DerivedRows {
  readonly batches: ReadonlyMap<string, Folded<BatchState>>;
  readonly bars: ReadonlyMap<string, Folded<BarsState>>;
}

export const NO_ROWS: DerivedRows = { batches: new Map(), bars: new Map() };

/** Folds line by line; each line goes to the stream of its own kind. */
export const deriving = (): { take(seq: number, value: unknown): void; readonly rows: DerivedRows } => {
  const batches = new Map<string, Folded<BatchState>>();
  const bars = new Map<string, Folded<BarsState>>();
  const put = <S>(map: Map<string, Folded<S>>, stream: string, next: Folded<S> | null): void => {
    if (next !== null) map.set(stream, next);
  };
  return {
    take(seq, value) {
      const entry = value as Entry | BarsEntry;
      const stream = entry.batch;
      if (isAboutBars(entry)) put(bars, stream, foldBars(bars.get(stream) ?? null, seq, entry as BarsEntry));
      else put(batches, stream, foldEntry(batches.get(stream) ?? null, seq, entry as Entry));
    },
    rows: { batches, bars },
  };
};

/** Whether the stored lists are those. Nothing rests on them: others are replayed, and are no damage. */
export const sameRows = (db: Database.Database, { batches, bars }: DerivedRows): boolean => {
  const ofBatches = prepare<object>(db)(() => query.selectFrom('batch_rows').selectAll()).all({});
  const ofBars = barsRows(db);
  return (
    ofBatches.length === batches.size &&
    ofBars.length === bars.size &&
    ofBatches.every(({ batch, row, start_seq: seq }) => isRow(batches.get(batch), row, seq)) &&
    ofBars.every(({ lot, row, start_seq: seq, done }) => {
      const derived = bars.get(lot);
      return isRow(derived, row, seq) && derived !== undefined && isDone(derived.state) === (done === 1);
    })
  );
};

const isRow = (derived: Folded | undefined, row: string, startSeq: number): boolean =>
  derived !== undefined && derived.row === row && derived.startSeq === startSeq;

/** A file of an older program has no list of bars yet, and no bars. */
const barsRows = (db: Database.Database): readonly { lot: string; row: string; start_seq: number; done: number }[] => {
  const made = db.prepare("select count(*) from sqlite_schema where name = 'bars_rows'").pluck().get();
  return made === 0 ? [] : prepare<object>(db)(() => query.selectFrom('bars_rows').selectAll()).all({});
};
