/**
 * Ten thousand batches: `npm run bench:archive`. A past is made by the real rules, written in bulk through the store's own sealing, then
 * list, search and review are asked over the HTTP app, the start is timed and everything derived is made anew.
 * `--batches N` for fewer, `--dir DIR` for where. `--keep DIR --most N` writes at most N more into a folder that stays, and measures once
 * all are there: for a machine that has other things to do.
 */
import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { pastOf } from '#hardware/practice/history/history';
import type { BatchFind } from '#lib/protocol/find';
import type { Entry } from '#lib/work/batch/index';
import { findingsOf, finish, inspect } from '#server/store/check';
import { openForReading } from '#server/store/file';
import { openStore } from '#server/store/open';
import { armedBatch, remembered } from '#server/bench/restore';
import { labelled } from '#lib/record/journal';
import { appRig } from '#tests/support/app-rig';
import { appendOf } from '#tests/support/appends';
import type { AppRig } from '#tests/support/app-rig';
import { KeptLog, STILL } from '#tests/support/store-rig';

const { values } = parseArgs({
  options: {
    batches: { type: 'string', default: '10000' },
    templates: { type: 'string', default: '250' },
    asks: { type: 'string', default: '300' },
    dir: { type: 'string', default: process.cwd() },
    keep: { type: 'string' },
    most: { type: 'string', default: '1000000' },
  },
});
const BATCHES = Number(values.batches);
const TEMPLATES = Math.min(BATCHES, Number(values.templates));
const DAY_MS = 86_400_000;

const seconds = (from: number): string => `${((performance.now() - from) / 1000).toFixed(1)} s`;
const say = (what: string, figure: string): void => console.log(`${what.padEnd(58)} ${figure.padStart(12)}`);

const countIn = (file: string): number => {
  const db = openForReading(file);
  try {
    return Number(db.prepare('select count(*) from batch_rows').pluck().get());
  } finally {
    db.close();
  }
};

/** A batch of the past as another one of another year: its own ids, mark and clock, every weight as it was decided. */
const again = (entries: readonly Entry[], round: number): readonly Entry[] => {
  const [first] = entries;
  if (round === 0 || first === undefined) return entries;
  const text = JSON.stringify(entries).replaceAll(first.batch, `${first.batch}r${round}`);
  return (JSON.parse(text) as Entry[]).map((entry) => {
    const moved = { ...entry, wall: entry.wall - 7 * round * DAY_MS };
    return moved.kind === 'batch-started' ? { ...moved, body: { ...moved.body, mark: `${moved.body.mark}/${round}` } } : moved;
  });
};

const dir = values.keep ?? mkdtempSync(join(values.dir, '.bench-archive-'));
try {
  let from = performance.now();
  const past = [...pastOf({ seed: 11, batches: TEMPLATES, realm: 'practice', from: Date.UTC(2025, 0, 6), formulas: 60, waited: [66, 82] })];
  say(`${TEMPLATES} batches decided`, seconds(from));

  from = performance.now();
  let rig = await appRig('practice', dir);
  const there = countIn(rig.store.file);
  const until = Math.min(BATCHES, there + Number(values.most));
  for (let at = there; at < until; at += 1) {
    const { entries } = past[at % TEMPLATES] ?? { entries: [] };
    await rig.store.bench.append(appendOf(again(entries, Math.floor(at / TEMPLATES)).map(labelled)));
    // As it is done at the close of every batch.
    await rig.keeper.sign();
  }
  say(`${until - there} batches more, ${rig.store.bench.seq()} entries sealed and written`, seconds(from));
  if (until < BATCHES) process.exit(0);
  await rig.stop();
  say('size of the file', `${(statSync(join(dir, 'practice.sqlite')).size / 1e6).toFixed(0)} MB`);

  from = performance.now();
  const store = await openStore({ dir, realm: 'practice', clock: STILL, log: new KeptLog() });
  await armedBatch(store);
  await remembered(store.bench, store.checks());
  say('a start: recent heads looked at, the bench remembered', seconds(from));
  await store.close();

  rig = await appRig('practice', dir);
  const ids = (await rig.store.batches.list({ before: null, limit: 200 })).batches.map(({ id }) => id);
  await ask(rig, 'list, the newest fifty', () => '/api/batches?limit=50');
  await ask(rig, 'list, deep in the past', (n) => `/api/batches?limit=50&before=${encodeURIComponent(ids[n % ids.length] ?? '')}`);
  const finds: readonly BatchFind[] = [
    { words: 'draught' },
    { words: 'soda ash cov' },
    { words: 'ol' },
    { words: 'rowan field', deviation: 'any' },
    { words: '25-17' },
    { words: 'CO-10' },
    { deviation: 'over-pour' },
    { formula: 'Alder & bog', deviation: 'any' },
    { from: Date.UTC(2024, 3, 1), to: Date.UTC(2024, 4, 1) },
    { words: 'oat', from: Date.UTC(2024, 3, 1), to: Date.UTC(2024, 6, 1), deviation: 'any' },
  ];
  await ask(rig, 'search and filters, ten ways', (n) => `/api/batches?${query(finds[n % finds.length] ?? {})}`);
  await ask(rig, 'review', (n) => `/api/batches/${ids[(7 * n) % ids.length]}`);

  from = performance.now();
  await rig.store.rebuild();
  say('everything derived made anew from the entries', seconds(from));
  from = performance.now();
  const db = openForReading(rig.store.file);
  const found = finish(inspect(db, null, true));
  db.close();
  say('every line, blob and list looked at', seconds(from));
  if (findingsOf(found).length > 0 || found.rowsStale) throw new Error('a sound record was found damaged');
  await rig.stop();
} finally {
  if (values.keep === undefined) rmSync(dir, { recursive: true, force: true });
}

async function ask(rig: AppRig, what: string, path: (n: number) => string): Promise<void> {
  const times: number[] = [];
  let bytes = 0;
  for (let n = 0; n < Number(values.asks); n += 1) {
    const began = performance.now();
    const answer = await rig.get(path(n));
    bytes += (await answer.arrayBuffer()).byteLength;
    times.push(performance.now() - began);
    if (!answer.ok) throw new Error(`${path(n)}: ${answer.status}`);
  }
  times.sort((a, b) => a - b);
  const at = (part: number): string => (times[Math.min(times.length - 1, Math.floor(part * times.length))] ?? 0).toFixed(1);
  say(`${what}: median, p99 of ${times.length}`, `${at(0.5)} ${at(0.99)} ms`);
  if (bytes === 0) throw new Error(`${what} answered nothing`);
}

function query(find: BatchFind): string {
  return new URLSearchParams(Object.entries(find).map(([key, value]) => [key, String(value)])).toString();
}
