import { rmSync } from 'node:fs';
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
import { zipOf, type Filling } from './zip';

export interface ArchiveParts {
  readonly realm: Realm;
  /** Batches from the newest on, page by page. */
  readonly rows: () => AsyncIterable<BatchListRow>;
  readonly batch: (id: string) => Promise<Outgoing | null>;
  /** What stands beside the batches, as tables by file name. `marks`: of batches, by id; `pictures`: those of batches. */
  readonly tables: (marks: ReadonlyMap<string, string>, pictures: readonly PictureRow[]) => AsyncIterable<readonly [string, string]>;
  /** Pictures and papers by the path they lie at. */
  readonly files: {
    readonly fileOf: (sha256: string) => string;
    readonly all: () => AsyncIterable<readonly [string, Uint8Array]>;
  };
  /** A sound copy of the record's file, this archive's own; removed when it has been sent or given up. */
  readonly copy: string;
  /** Signed notes of the newest heads and the public keys they are checked with, by file name. */
  readonly proof: Readonly<Record<string, string>>;
  readonly made: Date;
  /** The 64-bit form of a zip throughout, and not only where what goes in is too large for the other (4 GB, 65,535 files). */
  readonly wide?: boolean;
}

/**
 * Everything of one record in one archive, however large. It is written from a list of what goes in, never from what lies in the folder: a
 * private key has no way into it.
 */
export const archiveOf = (parts: ArchiveParts): ReadableStream<Uint8Array> =>
  zipOf(
    { made: parts.made, wide: parts.wide ?? false },
    (zip) => fill(parts, zip),
    () => rmSync(parts.copy, { force: true }),
  );

const fill = async (parts: ArchiveParts, { pack, lay, layFile }: Filling): Promise<void> => {
  await pack('README.txt', archiveReadme(parts.realm, parts.made));
  await pack(BATCH_RECORD_SCHEMA, batchSchemaText());
  for (const [name, what] of Object.entries(parts.proof)) await pack(`proof/${name}`, what);
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
    await pack(`batches/${safe(row.mark)}-${safe(row.id)}.json`, `${JSON.stringify(recordFile(found), null, 1)}\n`);
  }
  await pack('batches.csv', batches.join(''));
  await pack('weights.csv', weights.join(''));
  for await (const [name, of] of parts.tables(marks, pictures)) await pack(name, of);
  for await (const [name, bytes] of parts.files.all()) await lay(name, bytes);
  // As it is: a database packs badly.
  await layFile(`${parts.realm}.sqlite`, parts.copy);
};

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
