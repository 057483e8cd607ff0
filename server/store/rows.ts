import type Database from 'better-sqlite3';
import type { Append, JournalLine } from '#lib/record/journal';
import type { BatchId } from '#lib/units/id';
import type { Entry } from '#lib/work/batch/index';
import type { DerivedRows } from './check';
import { foldEntry } from './project-batches';
import type { Folded } from './project-batches';
import { prepare, query } from './tables';
import type { Prepared } from './tables';

/**
 * The rows of the list of batches, kept in step with the bench journal: written in the transaction of the entries they follow
 * from. A batch is folded from its lines when a run first writes to it, and from then on carried in memory.
 */
export class BatchRows {
  readonly #put: Put;
  readonly #linesOf: (batch: string) => readonly JournalLine[];
  readonly #kept = new Map<BatchId, Kept>();
  /** What the append under way makes of it, to be kept once that is on disk. */
  readonly #pending = new Map<BatchId, Kept>();

  constructor(db: Database.Database, linesOf: (batch: string) => readonly JournalLine[]) {
    this.#put = putRow(db);
    this.#linesOf = linesOf;
  }

  within(lines: readonly JournalLine[], what: Append): void {
    for (const [at, line] of lines.entries()) {
      const entry = what.entries[at]?.value as unknown as Entry;
      if (typeof entry.batch !== 'string') continue;
      const { folded, stored } = this.#pending.get(entry.batch) ?? this.#before(entry.batch, lines[0]?.seq ?? 0);
      this.#pending.set(entry.batch, { folded: foldEntry(folded, line.seq, entry), stored });
    }
    for (const [batch, { folded, stored }] of this.#pending) {
      // Most entries change nothing that the list shows.
      if (folded === null || folded.row === stored) continue;
      this.#put.run({ batch, startSeq: folded.startSeq, row: folded.row });
      this.#pending.set(batch, { folded, stored: folded.row });
    }
  }

  /** The append under way is on disk, or was undone. */
  settle(done: boolean): void {
    if (done) {
      for (const [batch, kept] of this.#pending) {
        // A batch that has ended hardly goes on: it need not stay in memory.
        if (kept.folded !== null && kept.folded.state.endedWall !== null) this.#kept.delete(batch);
        else this.#kept.set(batch, kept);
      }
    }
    this.#pending.clear();
  }

  #before(batch: BatchId, firstNew: number): Kept {
    const kept = this.#kept.get(batch);
    if (kept !== undefined) return kept;
    let folded: Folded | null = null;
    for (const line of this.#linesOf(batch)) {
      if (line.seq < firstNew) folded = foldEntry(folded, line.seq, JSON.parse(line.text) as Entry);
    }
    return { folded, stored: folded?.row ?? null };
  }
}

/** A batch as folded, and its row as it stands in the table. */
interface Kept {
  readonly folded: Folded | null;
  readonly stored: string | null;
}

/** Drops every row and writes those that follow from the lines. One transaction. */
export const replaceRows = (db: Database.Database, rows: DerivedRows): void => {
  const put = putRow(db);
  db.transaction(() => {
    prepare<object>(db)(() => query.deleteFrom('batch_rows')).run({});
    for (const [batch, { startSeq, row }] of rows) put.run({ batch, startSeq, row });
  }).immediate();
};

type Put = Prepared<{ batch: string; startSeq: number; row: string }, unknown>;

const putRow = (db: Database.Database): Put =>
  prepare<{ batch: string; startSeq: number; row: string }>(db)(({ batch, startSeq, row }) =>
    query
      .insertInto('batch_rows')
      .values({ batch, start_seq: startSeq, row })
      .onConflict((c) => c.column('batch').doUpdateSet({ row })),
  );
