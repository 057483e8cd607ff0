import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Json, JournalLine } from '#lib/record/journal';
import { as } from '#lib/units/id';
import type { BatchListRow } from '#lib/protocol/http';
import { openStore } from '#server/store/open';
import type { Store } from '#server/store/store';
import { sampleBatch } from './sample-batch';
import { storeRig } from './store-rig';

const MAKER = as<never>('person-1');

/** Everything a store tells about what was recorded. A part that could not be read is `null`. */
export interface Told {
  readonly bench: readonly JournalLine[] | null;
  readonly workshop: readonly JournalLine[] | null;
  readonly ofBatch: readonly JournalLine[] | null;
  readonly answers: readonly (Json | null)[] | null;
  readonly blobs: readonly (string | null)[] | null;
  readonly batches: readonly BatchListRow[] | null;
  readonly settings: readonly Json[] | null;
}

export const BATCHES = ['batch-0', 'batch-1', 'batch-2', 'batch-3'] as const;
const APPENDS = BATCHES.flatMap((batch, i) =>
  sampleBatch({ batch, lines: 3, stripBytes: 300, struckLine: i === 1 ? 1 : null, close: i < 3 }),
);

export const tellAll = async (store: Store): Promise<Told> => ({
  bench: await readable(() => store.bench.lines(0, 10_000)),
  workshop: await readable(() => store.workshop.lines(0, 10_000)),
  ofBatch: await readable(() => store.bench.linesOf(BATCHES[1])),
  answers: await readable(() => Promise.all(APPENDS.map(({ intent }) => store.bench.answerTo(intent?.id ?? '')))),
  blobs: await readable(() =>
    Promise.all(APPENDS.flatMap(({ blobs }) => blobs).map(async ({ sha256 }) => hex(await store.blobs.get(sha256)))),
  ),
  batches: await readable(async () => (await store.batches.list({ before: null, limit: 100 })).batches),
  settings: await readable(
    async () => [store.settings.instruments(), store.settings.people(), store.settings.screen()] as unknown as Json[],
  ),
});

const hex = (bytes: Uint8Array | null): string | null => (bytes === null ? null : Buffer.from(bytes).toString('hex'));

const readable = async <T>(read: () => Promise<T>): Promise<T | null> => {
  try {
    return await read();
  } catch {
    return null;
  }
};

/** A record with four batches, instruments and people, on disk; and what it tells when nothing is wrong. */
export interface Image {
  readonly dir: string;
  readonly told: Told;
  /** A copy to be harmed, in a directory of its own. */
  copy(): string;
  remove(): void;
}

/** `closed`: as after a clean end. `killed`: the files as they lie while a program runs, the newest lines in the write-ahead log. */
export const recordImage = async (how: 'closed' | 'killed'): Promise<Image> => {
  const rig = storeRig();
  const store = await openStore(rig.options);
  for (const append of APPENDS) await store.bench.append(append);
  await store.settings.bindInstrument(
    {
      kind: 'scale',
      id: as('scale-main'),
      role: 'main',
      name: 'big scale',
      path: '/dev/serial/by-id/scale',
      shape: null,
      serial: { baudRate: 9600, frame: '8N1' },
      capacity: as<never>(6_000_000 as never),
      division: null,
    },
    MAKER,
  );
  await store.settings.addPerson('Imke', MAKER);
  await store.settings.addPerson('Ravi', MAKER);
  await store.settings.setScreen({ mass: 'oz', temperature: 'F' }, MAKER);
  const told = await tellAll(store);
  const dir = mkdtempSync(join(tmpdir(), 'image-'));
  if (how === 'closed') await store.close();
  // The heads file is written once the loop turns.
  else await new Promise((turned) => setImmediate(turned));
  copyRecord(rig.dir, dir);
  if (how === 'killed') await store.close();
  rig.remove();
  return {
    dir,
    told,
    copy: () => {
      const to = mkdtempSync(join(tmpdir(), 'harmed-'));
      copyRecord(dir, to);
      return to;
    },
    remove: () => rmSync(dir, { recursive: true, force: true }),
  };
};

/** The record's own files: not the lock, and not the shared memory, which is made anew. */
const copyRecord = (from: string, to: string): void => {
  for (const file of readdirSync(from)) {
    if (/^practice\.(sqlite|heads)$/.test(file)) cpSync(join(from, file), join(to, file));
    if (file === 'practice.sqlite-wal') writeFileSync(join(to, file), written(readFileSync(join(from, file))));
  }
};

/** A log's header and its frames (https://www.sqlite.org/fileformat2.html#the_write_ahead_log), without the room behind them. */
const written = (log: Buffer): Buffer => {
  const [header, frame] = [32, 24 + 4096];
  let last = log.length - 1;
  while (last > 0 && log[last] === 0) last -= 1;
  return log.subarray(0, header + Math.ceil((last + 1 - header) / frame) * frame);
};
