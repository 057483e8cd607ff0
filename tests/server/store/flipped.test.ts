import Database from 'better-sqlite3';
import fc from '#tests/support/property';
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { canonical } from '#lib/record/canonical';
import { JournalReadOnly } from '#lib/record/journal';
import type { Json } from '#lib/record/journal';
import { openStore } from '#server/store/open';
import { StoreProblem } from '#server/store/problem';
import type { Store } from '#server/store/store';
import { appendOf, entryOf } from '#tests/support/appends';
import { recordImage, tellAll } from '#tests/support/store-image';
import type { Image, Told } from '#tests/support/store-image';
import { KeptLog, STILL } from '#tests/support/store-rig';

/** `FLIPS=5000 npx vitest run tests/server/store/flipped.test.ts` for a long run. */
const FLIPS = Number(process.env['FLIPS'] ?? 120);

const sha = (bytes: string | Buffer): string => createHash('sha256').update(bytes).digest('hex');

/** The record's files by their hash. An empty log is none: SQLite makes one to look at the file. */
const contents = (dir: string): Record<string, string> =>
  Object.fromEntries(
    readdirSync(dir)
      .filter((file) => /\.(sqlite|sqlite-wal|heads)$/.test(file))
      .map((file) => [file, readFileSync(join(dir, file))] as const)
      .filter(([file, bytes]) => !(file.endsWith('-wal') && bytes.length === 0))
      .map(([file, bytes]) => [file, sha(bytes)]),
  );

/** Short enough to be read when it fails. */
const summed = (told: Told): Record<string, string> =>
  Object.fromEntries(Object.entries(told).map(([part, value]) => [part, sha(canonical(value as Json))]));

/** Lines, answers and bytes read right or not at all. What could not be read may be lacking: a gap shows in the numbers. */
const neverOtherwise = (told: Told, right: Told): void => {
  for (const part of ['bench', 'workshop', 'ofBatch'] as const) {
    const bySeq = new Map(right[part]?.map((line) => [line.seq, line]));
    for (const line of told[part] ?? []) expect(JSON.stringify(line), part).toBe(JSON.stringify(bySeq.get(line.seq)));
  }
  for (const part of ['answers', 'blobs'] as const) {
    for (const [i, one] of (told[part] ?? []).entries()) {
      if (one !== null) expect(JSON.stringify(one), `${part} ${i}`).toBe(JSON.stringify(right[part]?.[i]));
    }
  }
};

const openHarmed = async (dir: string): Promise<Store | StoreProblem> => {
  try {
    return await openStore({ dir, realm: 'practice', clock: STILL, log: new KeptLog() });
  } catch (cause) {
    if (cause instanceof StoreProblem) return cause;
    throw cause;
  }
};

/** Opens a harmed copy and holds what it says against the truth. Returns how it was opened. */
const judge = async (dir: string, right: Told): Promise<'right' | 'read-only' | 'refused'> => {
  const before = contents(dir);
  const store = await openHarmed(dir);
  if (store instanceof StoreProblem) {
    expect(store.message.length).toBeGreaterThan(40);
    expect(contents(dir)).toEqual(before);
    return 'refused';
  }
  const told = await tellAll(store);
  const { ok, readOnly } = store.health();
  if (ok) {
    expect(summed(told)).toEqual(summed(right));
    await store.close();
    return 'right';
  }
  expect(readOnly).toMatch(/record .*(damaged|cannot be read|missing or empty)/);
  neverOtherwise(told, right);
  await expect(store.bench.append(appendOf([entryOf('new', 1)]))).rejects.toThrow(JournalReadOnly);
  await store.close();
  // Never a fresh file, and not the least repair: what is left may be all there is.
  expect(contents(dir)).toEqual(before);
  return 'read-only';
};

describe.each(['closed', 'killed'] as const)('B8: flipped bytes in a record that was %s', (how) => {
  let image: Image;
  beforeAll(async () => {
    image = await recordImage(how);
  });
  afterAll(() => image.remove());

  it(
    `B8: ${FLIPS} flips: opens read-only with a message, or reads right, never otherwise`,
    async () => {
      // The heads file is small: one flip in ten is enough for it.
      const files = readdirSync(image.dir).flatMap((file) => (file.endsWith('.heads') ? [file] : Array.from({ length: 5 }, () => file)));
      const seen = new Map<string, number>();
      await fc.assert(
        fc.asyncProperty(fc.nat(), fc.nat(), fc.integer({ min: 1, max: 255 }), async (file, where, mask) => {
          const dir = image.copy();
          const name = files[file % files.length] ?? '';
          const bytes = readFileSync(join(dir, name));
          const at = where % bytes.length;
          bytes[at] = (bytes[at] ?? 0) ^ mask;
          writeFileSync(join(dir, name), bytes);
          const end = await judge(dir, image.told);
          expect(end).not.toBe('refused');
          seen.set(`${name} ${end}`, (seen.get(`${name} ${end}`) ?? 0) + 1);
          rmSync(dir, { recursive: true });
        }),
        { numRuns: FLIPS },
      );
      // The flips were felt: otherwise this would pass with a file nobody reads.
      expect([...seen].filter(([end]) => end.endsWith('read-only')).reduce((sum, [, n]) => sum + n, 0)).toBeGreaterThan(FLIPS / 20);
      if (process.env['FLIPS'] !== undefined) console.log(how, Object.fromEntries(seen));
    },
    FLIPS * 500,
  );

  it.each<[string, (bytes: Buffer) => Buffer]>([
    ['no database at all', () => Buffer.from('once upon a time '.repeat(2000))],
    ['cut to nothing', () => Buffer.alloc(0)],
    ['cut in the middle of a page', (bytes) => bytes.subarray(0, Math.floor(bytes.length / 2) + 100)],
    ['cut to one page', (bytes) => bytes.subarray(0, 4096)],
    ['a page of zeros', (bytes) => Buffer.concat([bytes.subarray(0, 4096 * 3), Buffer.alloc(4096), bytes.subarray(4096 * 4)])],
    ['a first page of zeros', (bytes) => Buffer.concat([Buffer.alloc(4096), bytes.subarray(4096)])],
    ['all zeros', (bytes) => Buffer.alloc(bytes.length)],
  ])('B8: %s: read-only, or right from the log, and the file left as it is', async (_, harm) => {
    const dir = image.copy();
    const file = join(dir, 'practice.sqlite');
    writeFileSync(file, harm(readFileSync(file)));
    expect(await judge(dir, image.told)).not.toBe('refused');
    rmSync(dir, { recursive: true });
  });

  it('B8: the file is gone: no fresh one in its place', async () => {
    const dir = image.copy();
    rmSync(join(dir, 'practice.sqlite'));
    expect(await judge(dir, image.told)).toBe('read-only');
    expect(existsSync(join(dir, 'practice.sqlite'))).toBe(false);
    rmSync(dir, { recursive: true });
  });
});

describe('B8: values changed one by one', () => {
  let image: Image;
  beforeAll(async () => {
    image = await recordImage('closed');
  });
  afterAll(() => image.remove());

  it.each([
    ['a line', `update bench_lines set text = replace(text, '"gross"', '"grosz"') where seq = 9`],
    ['a line and its leaf, so that only the link tells', `update bench_lines set text = 'x', leaf = '${sha('x')}' where seq = 9`],
    ['a link', `update bench_lines set link = leaf where seq = 9`],
    ['the batch beside a line', `update bench_lines set batch = 'batch-9' where seq = 19`],
    ['the version beside a line', `update bench_lines set version = 99 where seq = 19`],
    ['the id beside a line', `update bench_lines set id = 'other' where seq = 19`],
    ['an answer', `update answers set answer = replace(answer, 'true', 'null') where intent = 'batch-0-intent-2'`],
    ['the intent of an answer', `update answers set intent = 'other' where intent = 'batch-0-intent-2'`],
    ['a name', `update people set name = 'Other' where name = 'Imke'`],
    ['a whole line, away', 'delete from bench_lines where seq = 9'],
    ['the newest line, away', 'delete from bench_lines where seq = (select max(seq) from bench_lines)'],
    [
      'a line put in',
      `insert into workshop_lines select seq + 1, 'x', null, null, text, leaf, link from workshop_lines order by seq desc limit 1`,
    ],
    ['an index, away', 'drop index bench_lines_of_batch'],
  ])('B8: %s', async (_, sql) => {
    const dir = image.copy();
    const db = new Database(join(dir, 'practice.sqlite'));
    db.exec(sql);
    db.close();
    expect(await judge(dir, image.told)).toBe('read-only');
    rmSync(dir, { recursive: true });
  });

  it('B8: an index that names another batch for a line: no batch gets a line that is not its own', async () => {
    const dir = image.copy();
    const file = join(dir, 'practice.sqlite');
    const db = new Database(file, { readonly: true });
    const page = db
      .prepare("select pageno from dbstat where name = 'bench_lines_of_batch' and pagetype = 'leaf' limit 1")
      .pluck()
      .get() as number;
    db.close();
    const bytes = readFileSync(file);
    const at = bytes.indexOf('batch-0', (page - 1) * 4096);
    expect(at).toBeLessThan(page * 4096);
    bytes.write('batch-1', at);
    writeFileSync(file, bytes);
    expect(await judge(dir, image.told)).toBe('read-only');
    rmSync(dir, { recursive: true });
  });

  it('B8: stored bytes are refused when they are asked for', async () => {
    const dir = image.copy();
    const db = new Database(join(dir, 'practice.sqlite'));
    const { sha256 } = db.prepare('select sha256 from blobs limit 1').get() as { sha256: string };
    db.prepare('update blobs set bytes = ? where sha256 = ?').run(Buffer.from('other'), sha256);
    db.close();
    const store = await openStore({ dir, realm: 'practice', clock: STILL, log: new KeptLog() });
    await expect(store.blobs.get(sha256)).rejects.toThrow(StoreProblem);
    expect(store.health().ok).toBe(false);
    await store.close();
    rmSync(dir, { recursive: true });
  });
});

describe('B8: lost newest lines', () => {
  it('B8: the log was left behind when the file was copied', async () => {
    const image = await recordImage('killed');
    const dir = image.copy();
    rmSync(join(dir, 'practice.sqlite-wal'));
    expect(await judge(dir, image.told)).toBe('read-only');
    rmSync(dir, { recursive: true });
    image.remove();
  });

  it('B8: an older file was put back beside newer heads', async () => {
    const older = await recordImage('closed');
    const dir = older.copy();
    const store = await openStore({ dir, realm: 'practice', clock: STILL, log: new KeptLog() });
    await store.bench.append(appendOf([entryOf('newer', 1)]));
    await store.close();
    writeFileSync(join(dir, 'practice.sqlite'), readFileSync(join(older.dir, 'practice.sqlite')));
    const again = await openStore({ dir, realm: 'practice', clock: STILL, log: new KeptLog() });
    expect(again.health().readOnly).toContain('was committed last and is missing');
    await again.close();
    rmSync(dir, { recursive: true });
    older.remove();
  });
});
