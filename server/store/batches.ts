import type Database from 'better-sqlite3';
import { sql } from 'kysely';
import type { BatchList, BatchListRow } from '#lib/protocol/http';
import type { Standing } from './standing';
import type { Store } from './store';
import { prepare, query } from './tables';

type Batches = Store['batches'];
type Status = BatchListRow['status'];

/** Both ways to read the list page alike: newest first, by the number of the line that started each batch. */
interface Source {
  startOf(batch: string): number | undefined;
  /** At most `limit` row texts that started before line `before`, of one status or of any. */
  older(before: number, limit: number, status: Status | null): readonly string[];
  text(batch: string): string | undefined;
}

const paged = (source: Source): Batches => ({
  list: async ({ before, limit, status = null }): Promise<BatchList> => {
    const start = before === null ? Number.MAX_SAFE_INTEGER : source.startOf(before);
    if (start === undefined) return { batches: [], next: null };
    const texts = source.older(start, limit + 1, status);
    const batches = texts.slice(0, limit).map(rowOf);
    return { batches, next: texts.length > limit ? (batches.at(-1)?.id ?? null) : null };
  },
  get: async (batch) => {
    const text = source.text(batch);
    return text === undefined ? null : rowOf(text);
  },
});

const rowOf = (text: string): BatchListRow => JSON.parse(text) as BatchListRow;

/** The list as committed with the entries. */
export const storedBatches = (db: Database.Database, standing: Standing): Batches => {
  const one = prepare<{ batch: string }>(db)(({ batch }) =>
    query.selectFrom('batch_rows').select(['start_seq', 'row']).where('batch', '=', batch),
  );
  const older = prepare<{ before: number; limit: number }>(db)(({ before, limit }) =>
    query.selectFrom('batch_rows').select('row').where('start_seq', '<', before).orderBy('start_seq', 'desc').limit(limit),
  );
  const olderOf = prepare<{ before: number; limit: number; status: Status }>(db)(({ before, limit, status }) =>
    query
      .selectFrom('batch_rows')
      .select('row')
      .where('start_seq', '<', before)
      .where(sql<Status>`json_extract(row, '$.status')`, '=', status)
      .orderBy('start_seq', 'desc')
      .limit(limit),
  );
  return paged({
    startOf: (batch) => standing.read(() => one.get({ batch }))?.start_seq,
    older: (before, limit, status) =>
      standing.read(() => (status === null ? older.all({ before, limit }) : olderOf.all({ before, limit, status }))).map(({ row }) => row),
    text: (batch) => standing.read(() => one.get({ batch }))?.row,
  });
};

/** The list as it follows from the lines that could be read: for a damaged file, whose own list is not to be trusted. */
export const derivedBatches = (rows: ReadonlyMap<string, { readonly startSeq: number; readonly row: string }>): Batches => {
  const newestFirst = [...rows.values()].toSorted((a, b) => b.startSeq - a.startSeq);
  return paged({
    startOf: (batch) => rows.get(batch)?.startSeq,
    older: (before, limit, status) =>
      newestFirst
        .filter((row) => row.startSeq < before && (status === null || rowOf(row.row).status === status))
        .slice(0, limit)
        .map(({ row }) => row),
    text: (batch) => rows.get(batch)?.row,
  });
};
