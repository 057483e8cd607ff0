import { openSync, readSync, closeSync, rmSync, statSync } from 'node:fs';
import { setImmediate } from 'node:timers/promises';
import { Zip, ZipDeflate, ZipPassThrough } from 'fflate';
import { BATCH_RECORD_SCHEMA } from '#lib/protocol/export';
import type { Realm } from '#lib/work/batch/index';
import { batchesHead, batchRow, weightRows, weightsHead } from '#lib/words/record/csv';
import type { BatchListRow } from '#lib/protocol/http';
import { archiveReadme } from './archive-readme';
import type { PictureRow } from '#lib/words/record/workshop-csv';
import { recordFile } from './facts';
import type { Outgoing } from './facts';
import { safe } from './kept-files';
import { batchSchemaText } from './schema';

export interface ArchiveParts {
  readonly realm: Realm;
  /** Batches from the newest on, page by page. */
  readonly rows: () => AsyncIterable<BatchListRow>;
  readonly batch: (id: string) => Promise<Outgoing | null>;
  /** What stands beside the batches, as tables by file name. `marks`: of batches, by id; `pictures`: those of batches. */
  readonly tables: (marks: ReadonlyMap<string, string>, pictures: readonly PictureRow[]) => AsyncIterable<readonly [string, string]>;
  /** Pictures and papers by the path they lie at, and how many bytes they are in all. */
  readonly files: {
    readonly bytes: number;
    readonly fileOf: (sha256: string) => string;
    readonly all: () => AsyncIterable<readonly [string, Uint8Array]>;
  };
  /** A sound copy of the record's file, this archive's own; removed when it has been sent or given up. */
  readonly copy: string;
  /** Signed notes of the newest heads and the public keys they are checked with, by file name. */
  readonly proof: Readonly<Record<string, string>>;
  readonly made: Date;
}

/** A zip without its 64-bit form holds no larger file (APPNOTE.TXT 4.4.9). */
const LARGEST = 0xffff_ffff;
const CHUNK = 256 * 1024;
const text = (of: string): Uint8Array => new TextEncoder().encode(of);

/**
 * Everything of one record in one archive. It is written from a list of what goes in, never from what lies in the folder: a private key
 * has no way into it. A download that breaks off has no directory at its end, so nobody can take a part for the whole.
 */
export const archiveOf = (parts: ArchiveParts): ReadableStream<Uint8Array> => {
  const pieces = piecesOf(parts);
  return new ReadableStream<Uint8Array>({
    async pull(controller) {
      const next = await pieces.next();
      if (next.done === true) controller.close();
      else controller.enqueue(next.value);
    },
    async cancel() {
      await pieces.return(undefined);
    },
  });
};

async function* piecesOf(parts: ArchiveParts): AsyncGenerator<Uint8Array, undefined> {
  const ready: Uint8Array[] = [];
  const zip = new Zip((error, chunk) => {
    if (error !== null) throw error;
    ready.push(chunk);
  });
  const put = (name: string, bytes: Uint8Array): void => {
    const entry = new ZipDeflate(name, { level: 6 });
    entry.mtime = parts.made;
    zip.add(entry);
    entry.push(bytes, true);
  };
  try {
    put('README.txt', text(archiveReadme(parts.realm, parts.made)));
    put(BATCH_RECORD_SCHEMA, text(batchSchemaText()));
    for (const [name, what] of Object.entries(parts.proof)) put(`proof/${name}`, text(what));
    const [batches, weights] = [[batchesHead], [weightsHead]];
    const marks = new Map<string, string>();
    const pictures: PictureRow[] = [];
    for await (const row of parts.rows()) {
      batches.push(batchRow(row));
      marks.set(row.id, row.mark);
      const found = await parts.batch(row.id);
      if (found === null) continue;
      weights.push(weightRows(found.page));
      pictures.push(...picturesOf(row.mark, found, parts.files.fileOf));
      put(`batches/${safe(row.mark)}-${safe(row.id)}.json`, text(`${JSON.stringify(recordFile(found), null, 1)}\n`));
      yield* ready.splice(0);
      // The bench comes first: between two batches whatever waits has its turn.
      await setImmediate();
    }
    put('batches.csv', text(batches.join('')));
    put('weights.csv', text(weights.join('')));
    for await (const [name, of] of parts.tables(marks, pictures)) {
      put(name, text(of));
      yield* ready.splice(0);
    }
    const { size } = statSync(parts.copy);
    if (size + parts.files.bytes <= LARGEST) yield* files(zip, parts, ready);
    if (size <= LARGEST) yield* record(zip, parts, ready);
    zip.end();
    yield* ready.splice(0);
  } finally {
    rmSync(parts.copy, { force: true });
  }
  return undefined;
}

const picturesOf = (mark: string, { page }: Outgoing, fileOf: (sha256: string) => string): readonly PictureRow[] =>
  page.pictures.map(({ sha256, of, caption, wall, offsetMin, by }) => ({
    of: mark,
    shows: of,
    note: caption,
    at: { wall, offsetMin },
    by,
    struck: false,
    file: fileOf(sha256),
  }));

/** Pictures and papers as they are: they are packed already. */
async function* files(zip: Zip, parts: ArchiveParts, ready: Uint8Array[]): AsyncGenerator<Uint8Array> {
  for await (const [name, bytes] of parts.files.all()) {
    const entry = new ZipPassThrough(name);
    entry.mtime = parts.made;
    zip.add(entry);
    entry.push(bytes, true);
    yield* ready.splice(0);
    await setImmediate();
  }
}

/** The record's file itself, as it is: a database packs badly, and packing it would take the bench's time. */
async function* record(zip: Zip, { copy, realm, made }: ArchiveParts, ready: Uint8Array[]): AsyncGenerator<Uint8Array> {
  const entry = new ZipPassThrough(`${realm}.sqlite`);
  entry.mtime = made;
  zip.add(entry);
  const fd = openSync(copy, 'r');
  try {
    for (let left = statSync(copy).size; left > 0;) {
      const chunk = new Uint8Array(Math.min(CHUNK, left));
      readSync(fd, chunk);
      left -= chunk.length;
      entry.push(chunk, left === 0);
      yield* ready.splice(0);
      await setImmediate();
    }
  } finally {
    closeSync(fd);
  }
}
