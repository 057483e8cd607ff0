import type Database from 'better-sqlite3';
import { isAboutBars } from '#lib/work/bars/index';
import type { BarsEntry, BarsState } from '#lib/work/bars/index';
import type { BatchState, Entry } from '#lib/work/batch/index';
import type { Append, JournalLine } from '#lib/record/journal';
import { parsed } from '#lib/record/lines';
import type { DerivedRows } from './derived-rows';
import { foldBars } from './project-bars';
import { foldEntry } from './project-batches';
import type { Folded } from './project';
import { putBarsRow, putBatchRow } from './row-tables';
import type { PutRow } from './row-tables';
import { checkIn, putCheck } from './project-checks';
import type { CheckedScale } from './project-checks';
import { putSearched, SEARCH_TABLE } from './search-table';
import { prepare, query } from './tables';
import type { Prepared } from './tables';

/** What is said of one kind of stream; the state of each is what its own fold made of it. */
interface Kind<S, E> {
  readonly fold: (before: Folded<S> | null, seq: number, entry: E) => Folded<S> | null;
  readonly put: PutRow<S>;
  /** It hardly goes on: it need not stay in memory. */
  readonly rests: (state: S) => boolean;
}

/**
 * The rows of the lists of batches and of bars, kept in step with the bench journal: written in the transaction of the entries they follow
 * from. A stream is folded from its lines when a run first writes to it, and from then on carried in memory.
 */
export class StreamRows {
  readonly #batches: Kind<BatchState, Entry>;
  readonly #bars: Kind<BarsState, BarsEntry>;
  readonly #linesOf: (stream: string) => readonly JournalLine[];
  readonly #kept = new Map<string, Kept>();
  /** What the append under way makes of it, to be kept once that is on disk. */
  readonly #pending = new Map<string, Kept>();

  readonly #search: (folded: Folded) => void;
  readonly #check: (check: CheckedScale) => void;
  readonly #raw: Prepared<{ stream: string }, { seq: number; text: string }>;

  constructor(db: Database.Database, linesOf: (stream: string) => readonly JournalLine[]) {
    this.#search = putSearched(db);
    this.#check = putCheck(db);
    this.#raw = prepare<{ stream: string }>(db)(({ stream }) =>
      query.selectFrom('bench_lines').select(['seq', 'text']).where('batch', '=', stream).orderBy('seq'),
    );
    this.#batches = { fold: foldEntry, put: putBatchRow(db), rests: ({ endedWall }) => endedWall !== null };
    this.#bars = { fold: foldBars, put: putBarsRow(db), rests: () => true };
    this.#linesOf = linesOf;
  }

  within(lines: readonly JournalLine[], what: Append): void {
    for (const [at, line] of lines.entries()) {
      const entry = what.entries[at]?.value as unknown as Entry;
      const stream: string = entry.batch;
      if (typeof stream !== 'string') continue;
      const kind = this.#kindOf(entry);
      const { folded, stored } = this.#pending.get(stream) ?? this.#before(stream, lines[0]?.seq ?? 0);
      this.#pending.set(stream, { kind, folded: kind.fold(folded, line.seq, entry), stored });
      const check = checkIn(line.seq, entry);
      if (check !== null) this.#check(check);
    }
    for (const [stream, { kind, folded, stored }] of this.#pending) {
      // Most entries change nothing that the list shows.
      if (folded === null || (folded.row === stored?.row && folded.found === stored.found)) continue;
      if (folded.row !== stored?.row) kind.put(stream, folded);
      if (folded.found !== stored?.found) this.#search(folded);
      this.#pending.set(stream, { kind, folded, stored: folded });
    }
  }

  /** A line's text is withdrawn, in the transaction under way: the batch is found by what is left of it. */
  forget(stream: string, withdrawn: (seq: number) => string): void {
    let folded: Folded | null = null;
    for (const line of this.#raw.all({ stream })) {
      const entry: unknown = parsed(line.text === '' ? withdrawn(line.seq) : line.text);
      folded = this.#kindOf(entry).fold(folded, line.seq, entry);
    }
    if (folded !== null) this.#search(folded);
    this.#kept.delete(stream);
  }

  /** The append under way is on disk, or was undone. */
  settle(done: boolean): void {
    if (done) {
      for (const [stream, kept] of this.#pending) {
        if (kept.folded !== null && kept.kind.rests(kept.folded.state)) this.#kept.delete(stream);
        else this.#kept.set(stream, kept);
      }
    }
    this.#pending.clear();
  }

  #kindOf(entry: unknown): AnyKind {
    return (isAboutBars(entry) ? this.#bars : this.#batches) as AnyKind;
  }

  #before(stream: string, firstNew: number): Pick<Kept, 'folded' | 'stored'> {
    const kept = this.#kept.get(stream);
    if (kept !== undefined) return kept;
    let folded: Folded | null = null;
    for (const line of this.#linesOf(stream)) {
      if (line.seq >= firstNew) continue;
      const entry: unknown = JSON.parse(line.text);
      folded = this.#kindOf(entry).fold(folded, line.seq, entry);
    }
    return { folded, stored: folded };
  }
}

/** Each is only ever handed what its own fold made, and entries of its own kinds. */
type AnyKind = Kind<unknown, unknown>;

/** A stream as folded, and as it stands in the tables. */
interface Kept {
  readonly kind: AnyKind;
  readonly folded: Folded | null;
  readonly stored: Pick<Folded, 'row' | 'found'> | null;
}

/** Drops every row and writes those that follow from the lines. One transaction. */
export const replaceRows = (db: Database.Database, { batches, bars, checks }: DerivedRows): void => {
  db.transaction(() => {
    for (const table of ['batch_rows', 'batch_index', 'bars_rows', 'scale_checks'] as const)
      prepare<object>(db)(() => query.deleteFrom(table)).run({});
    // Made anew and not emptied: an index that is damaged cannot be emptied.
    db.exec('drop table batch_search');
    for (const statement of SEARCH_TABLE) db.exec(statement);
    const [putBatch, putBars, search, check] = [putBatchRow(db), putBarsRow(db), putSearched(db), putCheck(db)];
    for (const [batch, folded] of batches) {
      putBatch(batch, folded);
      search(folded);
    }
    for (const [lot, folded] of bars) putBars(lot, folded);
    for (const one of checks.values()) check(one);
  }).immediate();
};

/** The list was written by a program that had no index beside it yet. */
export const isUnindexed = (db: Database.Database): boolean =>
  Number(db.prepare('select count(*) from batch_rows').pluck().get()) !==
  Number(db.prepare('select count(*) from batch_index').pluck().get());
