import Database from 'better-sqlite3';
import { isAboutBars } from '#lib/work/bars/index';
import type { BarsEntry, BarsState } from '#lib/work/bars/index';
import type { BatchState, Entry } from '#lib/work/batch/index';
import { foldBars, isDone } from './project-bars';
import { foldEntry } from './project-batches';
import { checkIn } from './project-checks';
import type { CheckedScale } from './project-checks';
import type { Folded } from './project';
import { indexed, searched } from './search-table';
import { prepare, query } from './tables';

/** The lists as they follow from the lines, each by the key of its stream. */
export interface DerivedRows {
  /** The state of one that has ended is let go of: of ten thousand they would fill the memory. */
  readonly batches: ReadonlyMap<string, Folded<BatchState | null>>;
  readonly bars: ReadonlyMap<string, Folded<BarsState>>;
  /** Newest check of each scale. */
  readonly checks: ReadonlyMap<string, CheckedScale>;
}

export const NO_ROWS: DerivedRows = { batches: new Map(), bars: new Map(), checks: new Map() };

/** The lines of one stream before a line, as values with their numbers. */
export type LinesBefore = (stream: string, seq: number) => Iterable<{ readonly seq: number; readonly value: unknown }>;

/** Folds line by line; each line goes to the stream of its own kind. A batch that goes on after its end is folded anew from its lines. */
export const deriving = (before: LinesBefore): { take(seq: number, value: unknown): void; readonly rows: DerivedRows } => {
  const batches = new Map<string, Folded<BatchState | null>>();
  const bars = new Map<string, Folded<BarsState>>();
  const checks = new Map<string, CheckedScale>();
  const again = (stream: string, seq: number): Folded<BatchState> | null => {
    let folded: Folded<BatchState> | null = null;
    for (const line of before(stream, seq)) folded = foldEntry(folded, line.seq, line.value as Entry);
    return folded;
  };
  const takeBatch = (seq: number, entry: Entry): void => {
    const known = batches.get(entry.batch) ?? null;
    const whole = known === null || known.state !== null ? (known as Folded<BatchState> | null) : again(entry.batch, seq);
    const next = foldEntry(whole, seq, entry);
    if (next !== null) batches.set(entry.batch, next.state.endedWall === null ? next : { ...next, state: null });
    const check = checkIn(seq, entry);
    if (check !== null) checks.set(check.instrument, check);
  };
  return {
    take(seq, value) {
      const entry = value as Entry | BarsEntry;
      if (isAboutBars(entry)) {
        const next = foldBars(bars.get(entry.batch) ?? null, seq, entry as BarsEntry);
        if (next !== null) bars.set(entry.batch, next);
      } else takeBatch(seq, entry as Entry);
    },
    rows: { batches, bars, checks },
  };
};

/** Whether the stored lists are those. Nothing rests on them: others are replayed, and are no damage. */
export const sameRows = (db: Database.Database, rows: DerivedRows): boolean => {
  try {
    return sameBatches(db, rows) && sameBars(db, rows) && sameChecks(db, rows);
  } catch (cause) {
    // An index for searching can be damaged in ways only reading it shows.
    if (cause instanceof Database.SqliteError) return false;
    throw cause;
  }
};

const sameBatches = (db: Database.Database, { batches }: DerivedRows): boolean => {
  const stored = prepare<object>(db)(() => query.selectFrom('batch_rows').selectAll()).all({});
  const index = all(db, 'batch_index');
  const search = all(db, 'batch_search', 'rowid, *');
  if (stored.length !== batches.size || index.length !== batches.size || search.length !== batches.size) return false;
  const byStart = new Map([...batches.values()].map((folded) => [folded.startSeq, folded] as const));
  const alike = (row: { readonly start_seq?: number; readonly rowid?: number }, of: (folded: Folded) => object | null): boolean => {
    const folded = byStart.get(row.start_seq ?? row.rowid ?? 0);
    return folded !== undefined && JSON.stringify(of(folded)) === JSON.stringify(row);
  };
  return (
    stored.every(({ batch, row, start_seq: seq }) => isRow(batches.get(batch), row, seq)) &&
    index.every((row) => alike(row, indexed)) &&
    search.every((row) => alike(row, ({ startSeq, found }) => (found === null ? null : searched(startSeq, found))))
  );
};

const sameBars = (db: Database.Database, { bars }: DerivedRows): boolean => {
  const stored = all(db, 'bars_rows') as readonly { lot: string; row: string; start_seq: number; done: number }[];
  return (
    stored.length === bars.size &&
    stored.every(({ lot, row, start_seq: seq, done }) => {
      const derived = bars.get(lot);
      return isRow(derived, row, seq) && derived !== undefined && isDone(derived.state) === (done === 1);
    })
  );
};

const sameChecks = (db: Database.Database, { checks }: DerivedRows): boolean => {
  const stored = all(db, 'scale_checks') as readonly CheckedScale[];
  return (
    stored.length === checks.size &&
    stored.every(({ instrument, seq, entry }) => {
      const derived = checks.get(instrument);
      return derived?.seq === seq && derived.entry === entry;
    })
  );
};

const isRow = (derived: Folded | undefined, row: string, startSeq: number): boolean =>
  derived !== undefined && derived.row === row && derived.startSeq === startSeq;

/** Everything of a derived table; a file of an older program may not have it yet, and then nothing is in it. */
const all = (db: Database.Database, table: string, columns = '*'): readonly { start_seq?: number; rowid?: number }[] => {
  const made = db.prepare('select count(*) from sqlite_schema where name = ?').pluck().get(table);
  return made === 0 ? [] : (db.prepare(`select ${columns} from ${table}`).all() as { start_seq?: number }[]);
};
