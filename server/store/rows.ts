import type Database from 'better-sqlite3';
import { isAboutBars } from '#lib/work/bars/index';
import type { BarsEntry, BarsState } from '#lib/work/bars/index';
import type { BatchState, Entry } from '#lib/work/batch/index';
import type { Append, JournalLine } from '#lib/record/journal';
import type { DerivedRows } from './derived-rows';
import { foldBars } from './project-bars';
import { foldEntry } from './project-batches';
import type { Folded } from './project';
import { putBarsRow, putBatchRow } from './row-tables';
import type { PutRow } from './row-tables';
import { prepare, query } from './tables';

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

  constructor(db: Database.Database, linesOf: (stream: string) => readonly JournalLine[]) {
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
    }
    for (const [stream, { kind, folded, stored }] of this.#pending) {
      // Most entries change nothing that the list shows.
      if (folded === null || folded.row === stored) continue;
      kind.put(stream, folded);
      this.#pending.set(stream, { kind, folded, stored: folded.row });
    }
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
    return { folded, stored: folded?.row ?? null };
  }
}

/** Each is only ever handed what its own fold made, and entries of its own kinds. */
type AnyKind = Kind<unknown, unknown>;

/** A stream as folded, and its row as it stands in the table. */
interface Kept {
  readonly kind: AnyKind;
  readonly folded: Folded | null;
  readonly stored: string | null;
}

/** Drops every row and writes those that follow from the lines. One transaction. */
export const replaceRows = (db: Database.Database, { batches, bars }: DerivedRows): void => {
  const [putBatch, putBars] = [putBatchRow(db), putBarsRow(db)];
  db.transaction(() => {
    prepare<object>(db)(() => query.deleteFrom('batch_rows')).run({});
    prepare<object>(db)(() => query.deleteFrom('bars_rows')).run({});
    for (const [batch, folded] of batches) putBatch(batch, folded);
    for (const [lot, folded] of bars) putBars(lot, folded);
  }).immediate();
};
