/**
 * What our commit costs beside the least a commit can cost: `npm run bench:commit`.
 *
 * Ours: one append of a journal, from the decided entries as objects until the commit is on disk: canonical text, salt,
 * hashes, the answer, the strip, the row of the list of batches. Bare: one better-sqlite3 transaction (WAL, synchronous FULL)
 * that inserts the very same rows and bytes, made beforehand, into the same tables. Both in one run, on one disk, taking turns.
 */
import Database from 'better-sqlite3';
import { mkdtempSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { setImmediate } from 'node:timers/promises';
import { parseArgs } from 'node:util';
import type { Append, JournalLine } from '#lib/record/journal';
import { sealAll } from '#lib/record/lines';
import { EMPTY, SALT_BYTES } from '#lib/record/seal';
import type { Head } from '#lib/record/seal';
import type { Entry } from '#lib/work/batch/index';
import { migrate } from '#server/store/migrate';
import { openStore } from '#server/store/open';
import { foldEntry } from '#server/store/project-batches';
import type { Folded } from '#server/store/project-batches';
import { NATIVE, sumOf } from '#server/store/sums';
import { sampleBatch } from '#tests/support/sample-batch';
import { KeptLog, STILL } from '#tests/support/store-rig';

const LIMIT = 1.2;

const { values } = parseArgs({
  options: { commits: { type: 'string', default: '2000' }, dir: { type: 'string', default: process.cwd() } },
});
const commits = Number(values.commits);

/** What one append leaves in the file. */
interface Rows {
  readonly lines: readonly (JournalLine & Pick<Append['entries'][number], 'id' | 'batch' | 'version'>)[];
  readonly answer: { readonly intent: string; readonly answer: string; readonly sum: string };
  readonly blobs: Append['blobs'];
  /** `null` when the append changes nothing the list shows. */
  readonly row: { readonly batch: string; readonly startSeq: number; readonly row: string } | null;
}

/** Makes the rows the store will make, byte for byte: it is given the same salts. */
const rowMaker = () => {
  let head: Head = EMPTY;
  const folded = new Map<string, { readonly folded: Folded | null; readonly row: string | null }>();
  return (what: Append, salt: () => Uint8Array): Rows => {
    const lines = sealAll(head, what.entries, salt, NATIVE).map((line, i) => ({ ...line, ...labelsAt(what, i) }));
    head = lines.at(-1) ?? head;
    const batch = what.batch ?? '';
    const before = folded.get(batch) ?? { folded: null, row: null };
    const after = lines.reduce<Folded | null>(
      (state, line, i) => foldEntry(state, line.seq, what.entries[i]?.value as unknown as Entry),
      before.folded,
    );
    const row = after?.row ?? null;
    folded.set(batch, { folded: after, row });
    const { id: intent, answer: given } = what.intent ?? { id: '', answer: null };
    const answer = JSON.stringify(given);
    return {
      lines,
      answer: { intent, answer, sum: sumOf(intent, answer) },
      blobs: what.blobs,
      row: row === null || row === before.row || after === null ? null : { batch, startSeq: after.startSeq, row },
    };
  };
};

const labelsAt = (what: Append, i: number) => {
  const { id = '', batch = null, version = null } = what.entries[i] ?? {};
  return { id, batch, version };
};

const bareWriter = (file: string): { write: (rows: Rows) => void; close: () => void } => {
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
    answer.run(rows.answer);
    for (const one of rows.blobs) blob.run(one);
    for (const one of rows.lines) line.run(one);
    if (rows.row !== null) row.run(rows.row);
  });
  return { write: (rows) => write.immediate(rows), close: () => db.close() };
};

/** Salts known beforehand, so that both sides write the same bytes. */
const saltsFrom = (start: number): (() => Uint8Array) => {
  let n = start;
  return () => {
    const salt = new Uint8Array(SALT_BYTES);
    new DataView(salt.buffer).setFloat64(0, (n += 1));
    return salt;
  };
};

/** Nobody was spared a row. */
const assertSameRows = (...files: readonly string[]): void => {
  const contents = files.map((file) => {
    const db = new Database(file, { readonly: true });
    const rows = ['bench_lines', 'answers', 'blobs', 'batch_rows'].map((table) => db.prepare(`select * from ${table}`).all());
    db.close();
    return JSON.stringify(rows);
  });
  if (new Set(contents).size !== 1) throw new Error('the two did not write the same rows');
};

const percentile = (times: readonly number[], p: number): number =>
  times.toSorted((a, b) => a - b)[Math.floor((times.length - 1) * p)] ?? Number.NaN;

const ours: number[] = [];
const bare: number[] = [];
const timed = async (into: number[], act: () => unknown): Promise<void> => {
  // Each begins from an idle loop, as a decision does, and pays for what the one before it left to be done.
  await setImmediate();
  const from = performance.now();
  await act();
  into.push(performance.now() - from);
};

const dir = mkdtempSync(join(values.dir, '.bench-commit-'));
try {
  const store = await openStore({ dir, realm: 'practice', clock: STILL, log: new KeptLog(), random: saltsFrom(0) });
  const writer = bareWriter(join(dir, 'bare.sqlite'));
  const rowsOf = rowMaker();
  const salts = saltsFrom(0);
  const perBatch = sampleBatch({ batch: 'count' }).length;
  const appends = Array.from({ length: Math.ceil(commits / perBatch) }, (_, i) => sampleBatch({ batch: `batch-${i}` })).flat();
  for (const [i, stored] of appends.entries()) {
    // Made just now, as what a decision hands over is, and not out of a list built long ago.
    const what = structuredClone(stored);
    const rows = rowsOf(what, salts);
    const turns = [() => timed(ours, () => store.bench.append(what)), () => timed(bare, () => writer.write(rows))];
    for (const turn of i % 2 === 0 ? turns : turns.toReversed()) await turn();
  }
  writer.close();
  await store.close();
  assertSameRows(store.file, join(dir, 'bare.sqlite'));

  const warm = Math.floor(appends.length / 10);
  const show = (name: string, times: readonly number[]): number => {
    const kept = times.slice(warm);
    const p50 = percentile(kept, 0.5);
    console.log(`${name.padEnd(28)} p50 ${p50.toFixed(3)} ms   p99 ${percentile(kept, 0.99).toFixed(3)} ms   (${kept.length} commits)`);
    return p50;
  };
  const ratio = show('journal.append', ours) / show('bare WAL+FULL transaction', bare);
  console.log(`ratio of p50: ${ratio.toFixed(3)} (at most ${LIMIT})`);
  if (ratio > LIMIT) process.exitCode = 1;
} finally {
  rmSync(dir, { recursive: true, force: true });
}
