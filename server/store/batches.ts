import type Database from 'better-sqlite3';
import type { BatchFind } from '#lib/protocol/find';
import type { BatchList, BatchListRow } from '#lib/protocol/http';
import { findBatches } from './find-batches';
import type { Asked } from './find-batches';
import type { Folded } from './project';
import { bitsOf, indexed } from './search-table';
import type { Standing } from './standing';
import type { Store } from './store';
import { prepare, query } from './tables';

type Batches = Store['batches'];

/** Both ways to read the list page alike: newest first, by the number of the line that started each batch. */
interface Source {
  startOf(batch: string): number | undefined;
  /** Row texts, newest first. */
  older(asked: Asked): readonly string[];
  text(batch: string): string | undefined;
  formulas(): readonly string[];
}

const paged = (source: Source): Batches => ({
  list: async ({ before, limit, status = null, find = {} }): Promise<BatchList> => {
    const start = before === null ? Number.MAX_SAFE_INTEGER : source.startOf(before);
    if (start === undefined) return { batches: [], next: null };
    const texts = source.older({ ...find, before: start, limit: limit + 1, status });
    const batches = texts.slice(0, limit).map(rowOf);
    return { batches, next: texts.length > limit ? (batches.at(-1)?.id ?? null) : null };
  },
  get: async (batch) => {
    const text = source.text(batch);
    return text === undefined ? null : rowOf(text);
  },
  formulas: async () => source.formulas(),
});

const rowOf = (text: string): BatchListRow => JSON.parse(text) as BatchListRow;

/** The list as committed with the entries. */
export const storedBatches = (db: Database.Database, standing: Standing): Batches => {
  const one = prepare<{ batch: string }>(db)(({ batch }) =>
    query.selectFrom('batch_rows').select(['start_seq', 'row']).where('batch', '=', batch),
  );
  const find = findBatches(db);
  const formulas = prepare<object>(db)(() => query.selectFrom('batch_index').select('formula').distinct().orderBy('formula'));
  return paged({
    startOf: (batch) => standing.read(() => one.get({ batch }))?.start_seq,
    older: (asked) => standing.read(() => find(asked)),
    text: (batch) => standing.read(() => one.get({ batch }))?.row,
    formulas: () => standing.read(() => formulas.all({})).map(({ formula }) => formula),
  });
};

/** The list as it follows from the lines that could be read: for a damaged file, whose own list is not to be trusted. */
export const derivedBatches = (rows: ReadonlyMap<string, Folded>): Batches => {
  const newestFirst = [...rows.values()].toSorted((a, b) => b.startSeq - a.startSeq);
  return paged({
    startOf: (batch) => rows.get(batch)?.startSeq,
    older: (asked) =>
      newestFirst
        .filter((folded) => folded.startSeq < asked.before && (asked.status === null || rowOf(folded.row).status === asked.status))
        .filter((folded) => matches(folded, asked))
        .slice(0, asked.limit)
        .map(({ row }) => row),
    text: (batch) => rows.get(batch)?.row,
    formulas: () => [...new Set(newestFirst.map((folded) => indexed(folded).formula))].toSorted(),
  });
};

const matches = (folded: Folded, { words, from, to, formula, deviation }: BatchFind): boolean => {
  const index = indexed(folded);
  const said = JSON.stringify(folded.found).toLowerCase();
  return (
    (from === undefined || index.started >= from) &&
    (to === undefined || index.started < to) &&
    (formula === undefined || index.formula === formula) &&
    (deviation === undefined || (index.deviations & bitsOf(deviation)) !== 0) &&
    (words === undefined ||
      words
        .toLowerCase()
        .split(/\s+/)
        .every((word) => said.includes(word)))
  );
};
