import Database from 'better-sqlite3';
import type { Append, JournalLine } from '#lib/record/journal';
import { sealAll } from '#lib/record/lines';
import { EMPTY } from '#lib/record/seal';
import type { Head } from '#lib/record/seal';
import type { BatchState, Entry } from '#lib/work/batch/index';
import { migrate } from '#server/store/migrate';
import { foldEntry } from '#server/store/project-batches';
import type { Folded } from '#server/store/project';
import { NATIVE, sumOf } from '#server/store/sums';

/** What one append leaves in the file. */
export interface Rows {
  readonly lines: readonly (JournalLine & Pick<Append['entries'][number], 'id' | 'batch' | 'version'>)[];
  readonly answer: { readonly intent: string; readonly answer: string; readonly sum: string } | null;
  readonly blobs: Append['blobs'];
  /** `null` when the append changes nothing the list shows. */
  readonly row: { readonly batch: string; readonly startSeq: number; readonly row: string } | null;
}

/** Makes the rows the store makes, byte for byte, when it is given the same salts. */
export const rowMaker = (salt: () => Uint8Array): ((what: Append) => Rows) => {
  let head: Head = EMPTY;
  const kept = new Map<string, Folded<BatchState> | null>();
  return (what) => {
    const lines = sealAll(head, what.entries, salt, NATIVE).map((line, i) => ({ ...line, ...labelsAt(what, i) }));
    head = lines.at(-1) ?? head;
    const batch = what.batch ?? '';
    const before = kept.get(batch) ?? null;
    const after = lines.reduce<Folded<BatchState> | null>(
      (state, { seq }, i) => foldEntry(state, seq, what.entries[i]?.value as unknown as Entry),
      before,
    );
    kept.set(batch, after);
    return {
      lines,
      answer: what.intent === null ? null : answerRow(what.intent),
      blobs: what.blobs,
      row: after === null || after.row === before?.row ? null : { batch, startSeq: after.startSeq, row: after.row },
    };
  };
};

const labelsAt = (what: Append, i: number) => {
  const { id = '', batch = null, version = null } = what.entries[i] ?? {};
  return { id, batch, version };
};

const answerRow = ({ id: intent, answer: given }: NonNullable<Append['intent']>): Rows['answer'] => {
  const answer = JSON.stringify(given);
  return { intent, answer, sum: sumOf(intent, answer) };
};

/** The least that can be done: one immediate transaction of ready-made rows in the store's own tables, synced at its commit. */
export const bareWriter = (file: string): { write: (rows: Rows) => void; close: () => void } => {
  const db = new Database(file);
  db.pragma('journal_mode = WAL');
  db.pragma('synchronous = FULL');
  migrate(db, 0, () => undefined);
  if (db.pragma('synchronous', { simple: true }) !== 2) throw new Error('the bare transaction does not sync every commit');
  const line = db.prepare(
    'insert into bench_lines (seq, id, batch, version, text, leaf, link) values (@seq, @id, @batch, @version, @text, @leaf, @link)',
  );
  const answer = db.prepare('insert into answers (intent, answer, sum) values (@intent, @answer, @sum)');
  const blob = db.prepare('insert or ignore into blobs (sha256, kind, bytes) values (@sha256, @kind, @bytes)');
  const row = db.prepare(
    'insert into batch_rows (batch, start_seq, row) values (@batch, @startSeq, @row) on conflict (batch) do update set row = @row',
  );
  const write = db.transaction((rows: Rows) => {
    if (rows.answer !== null) answer.run(rows.answer);
    for (const one of rows.blobs) blob.run(one);
    for (const one of rows.lines) line.run(one);
    if (rows.row !== null) row.run(rows.row);
  });
  return { write: (rows) => write.immediate(rows), close: () => db.close() };
};

/** Nobody was spared a row. */
export const assertSameRows = (...files: readonly string[]): void => {
  const contents = files.map((file) => {
    const db = new Database(file, { readonly: true });
    const rows = ['bench_lines', 'answers', 'blobs', 'batch_rows'].map((table) => db.prepare(`select * from ${table}`).all());
    db.close();
    return JSON.stringify(rows);
  });
  if (new Set(contents).size !== 1) throw new Error('the two did not write the same rows');
};
