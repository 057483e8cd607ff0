/**
 * How long a start takes the record: `npm run bench:open`. A journal of so many lines is written, then opened as a start opens
 * it: structure of the file, both chains, every column and row that follows from the lines; and with the parts by themselves.
 */
import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { findingsOf, finish, inspect } from '#server/store/check';
import { openForReading } from '#server/store/file';
import { openStore } from '#server/store/open';
import { sampleBatch } from '#tests/support/sample-batch';
import { KeptLog, STILL } from '#tests/support/store-rig';

const { values } = parseArgs({
  options: {
    lines: { type: 'string', default: '10000' },
    runs: { type: 'string', default: '5' },
    dir: { type: 'string', default: process.cwd() },
  },
});

const took = async <T>(name: string, act: () => T | Promise<T>): Promise<T> => {
  const times: number[] = [];
  let done: T | undefined;
  for (let run = 0; run < Number(values.runs); run += 1) {
    const from = performance.now();
    done = await act();
    times.push(performance.now() - from);
  }
  const median = times.toSorted((a, b) => a - b)[Math.floor(times.length / 2)] ?? Number.NaN;
  console.log(`${name.padEnd(44)} ${median.toFixed(0).padStart(6)} ms`);
  return done as T;
};

const dir = mkdtempSync(join(values.dir, '.bench-open-'));
try {
  const options = { dir, realm: 'practice', clock: STILL, log: new KeptLog() } as const;
  const store = await openStore(options);
  for (let batch = 0; store.bench.seq() < Number(values.lines); batch += 1) {
    for (const append of sampleBatch({ batch: `batch-${batch}` })) await store.bench.append(append);
  }
  console.log(`${store.bench.seq()} lines, ${(statSync(store.file).size / 1e6).toFixed(1)} MB, median of ${values.runs}`);
  await store.close();

  await took('a whole start: openStore and close', async () => (await openStore(options)).close());
  const db = openForReading(store.file);
  await took('of it, looking at everything', () => finish(inspect(db, null, false)));
  await took('of that, the structure (integrity_check)', () => db.pragma('integrity_check'));
  const deep = await took('on demand: everything and every strip', () => finish(inspect(db, null, true)));
  if (findingsOf(deep).length > 0) throw new Error('a sound record was found damaged');
  db.close();
} finally {
  rmSync(dir, { recursive: true, force: true });
}
