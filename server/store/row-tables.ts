import type Database from 'better-sqlite3';
import type { BarsState } from '#lib/work/bars/index';
import { isDone } from './project-bars';
import type { Folded } from './project';
import { putIndexed } from './search-table';
import { prepare, query } from './tables';

/** Writes the row of one stream. */
export type PutRow<S> = (stream: string, folded: Folded<S>) => void;

export const putBatchRow = (db: Database.Database): PutRow<unknown> => {
  const put = prepare<{ batch: string; startSeq: number; row: string }>(db)(({ batch, startSeq, row }) =>
    query
      .insertInto('batch_rows')
      .values({ batch, start_seq: startSeq, row })
      .onConflict((c) => c.column('batch').doUpdateSet({ row })),
  );
  const putIndex = putIndexed(db);
  return (batch, folded) => {
    const { startSeq, row } = folded;
    put.run({ batch, startSeq, row });
    putIndex(folded);
  };
};

export const putBarsRow = (db: Database.Database): PutRow<BarsState> => {
  const put = prepare<{ lot: string; startSeq: number; done: number; row: string }>(db)(({ lot, startSeq, done, row }) =>
    query
      .insertInto('bars_rows')
      .values({ lot, start_seq: startSeq, done, row })
      .onConflict((c) => c.column('lot').doUpdateSet({ done, row })),
  );
  return (lot, { startSeq, row, state }) => void put.run({ lot, startSeq, done: isDone(state) ? 1 : 0, row });
};
