import { existsSync, mkdtempSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { archiveOf, type ArchiveParts } from '#server/export/archive';
import { toolWell } from '#tests/support/tools';

const PICTURE = new Uint8Array(70_000).fill(7);

/** A record without batches, with one picture: what its copy on the disk holds is the test's. */
const partsOf = (copy: string): ArchiveParts => ({
  realm: 'test',
  rows: async function* () {},
  batch: () => Promise.resolve(null),
  tables: async function* () {},
  files: {
    fileOf: () => '',
    all: async function* () {
      yield ['pictures/one.jpg', PICTURE] as const;
    },
  },
  copy,
  proof: {},
  made: new Date(2026, 10, 28),
});

/** What is sent until `enough` of it is. */
const sent = async (of: ReadableStream<Uint8Array>, enough: (so: Buffer) => boolean): Promise<Buffer> => {
  let so = Buffer.alloc(0);
  const reader = of.getReader();
  for (let next = await reader.read(); !next.done && !enough(so); next = await reader.read()) so = Buffer.concat([so, next.value]);
  await reader.cancel();
  return so;
};
const whole = (of: ReadableStream<Uint8Array>): Promise<Buffer> => sent(of, () => false);

/** A reader that is not ours: names, sizes, versions needed, and that every sum is right. */
const READ = `
import json, sys, zipfile
with zipfile.ZipFile(sys.argv[1]) as z:
    print(json.dumps([z.testzip(), [[i.filename, i.file_size, i.extract_version] for i in z.infolist()]]))
`;

describe('an archive larger than a zip of 32 bits', () => {
  let dir: string;
  let copy: string;
  beforeEach(() => {
    dir = mkdtempSync(join(tmpdir(), 'potwatch-large-'));
    copy = join(dir, 'copy.sqlite');
  });
  afterEach(() => rmSync(dir, { recursive: true, force: true }));

  it('has sizes and places in 64 bits, which a reader of another make follows', async () => {
    writeFileSync(copy, Buffer.alloc(300_000, 3));
    const zip = await whole(archiveOf({ ...partsOf(copy), wide: true }));
    const file = join(dir, 'a.zip');
    writeFileSync(file, zip);
    const [bad, found] = JSON.parse(toolWell('python3', ['-c', READ, file])) as [string | null, [string, number, number][]];
    expect(bad).toBeNull();
    // Version 4.5 is that of the 64-bit form (APPNOTE.TXT 4.4.3.2).
    expect(found).toEqual(
      expect.arrayContaining([
        ['pictures/one.jpg', PICTURE.length, 45],
        ['test.sqlite', 300_000, 45],
      ]),
    );
    const end = zip.length - 22;
    expect(zip.readUInt32LE(end + 16)).toBe(0xffff_ffff);
    // The locator (4.3.15) before the end, and the record of 64 bits (4.3.14) where it says, with the number of entries.
    const record = Number(zip.readBigUInt64LE(end - 20 + 8));
    expect([zip.readUInt32LE(end - 20), zip.readUInt32LE(record)]).toEqual([0x0706_4b50, 0x0606_4b50]);
    expect(Number(zip.readBigUInt64LE(record + 32))).toBe(found.length);
  });

  it('leaves out neither the pictures nor the record, and given up leaves no copy behind', async () => {
    writeFileSync(copy, '');
    truncateSync(copy, 0x1_0000_1000);
    const begun = await sent(archiveOf(partsOf(copy)), (so) => so.includes('test.sqlite'));
    expect(begun.includes('pictures/one.jpg')).toBe(true);
    expect(existsSync(copy)).toBe(false);
  });

  it('a record that cannot be read to its end gives no archive', async () => {
    await expect(whole(archiveOf(partsOf(join(dir, 'gone.sqlite'))))).rejects.toThrow(/ENOENT/);
  });
});
