import Database from 'better-sqlite3';
import type { BatchFind } from '#lib/protocol/find';
import type { BatchListRow } from '#lib/protocol/http';
import { StoreProblem } from './problem';
import { bitsOf } from './search-table';

export interface Asked extends BatchFind {
  /** Number of the line that began the batch after the last one shown. */
  readonly before: number;
  readonly limit: number;
  readonly status: BatchListRow['status'] | null;
}

/** In quotes of any kind; the letters a mark begins with and its number, as in "CO 21"; or one word. */
const PIECE = /["“”„«»]([^"“”„«»]*)["“”„«»]?|(?<![^\s])(\p{L}{1,3}\s+\S*\d\S*)|([^\s"“”„«»]+)/gu;

/**
 * What a person typed as an FTS5 expression: every word must be there, each as the beginning of one at least, so that "oliv" finds olive
 * oil. What stands in quotes or has a number in it is a mark, a lot or a figure and must be there as it is, word after word: of "CO 21"
 * taken apart every coconut would be found. All is quoted, so that nothing typed is read as an operator. `null` when nothing in it can be
 * searched for.
 */
const expressionOf = (words: string): string | null => {
  const parts = [...words.matchAll(PIECE)].flatMap(([, quoted, mark, word = '']) => {
    const text = quoted ?? mark ?? word;
    const exact = quoted !== undefined || /\p{N}/u.test(text);
    return /[\p{L}\p{N}]/u.test(text) ? [`"${text.replaceAll('"', '""')}"${exact ? '' : '*'}`] : [];
  });
  return parts.length === 0 ? null : parts.join(' ');
};

/** Rows of the list, newest first, narrowed by the index and the search that were committed with them. */
export const findBatches = (db: Database.Database): ((asked: Asked) => readonly string[]) => {
  const prepared = new Map<string, Database.Statement<unknown[], { row: string }>>();
  return (asked) => {
    const { sql, values } = statementOf(asked);
    const statement = prepared.get(sql) ?? db.prepare<unknown[], { row: string }>(sql);
    prepared.set(sql, statement);
    try {
      return statement.all(...values).map(({ row }) => row);
    } catch (cause) {
      throw cause instanceof Database.SqliteError && cause.code === 'SQLITE_CORRUPT_VTAB' ? searchDamaged(cause) : cause;
    }
  };
};

const statementOf = ({ before, limit, status, words, from, to, formula, deviation }: Asked): { sql: string; values: unknown[] } => {
  const expression = words === undefined ? null : expressionOf(words);
  const key = expression === null ? 'batch_index.start_seq' : 'batch_search.rowid';
  const wanted: readonly (readonly [string, unknown])[] = [
    [`${key} < ?`, before],
    ...(expression === null ? [] : [['batch_search match ?', expression] as const]),
    ...(status === null ? [] : [['batch_index.status = ?', status] as const]),
    ...(from === undefined ? [] : [['batch_index.started >= ?', from] as const]),
    ...(to === undefined ? [] : [['batch_index.started < ?', to] as const]),
    ...(formula === undefined ? [] : [['batch_index.formula = ?', formula] as const]),
    ...(deviation === undefined ? [] : [['batch_index.deviations & ? <> 0', bitsOf(deviation)] as const]),
  ];
  const tables =
    expression === null
      ? 'batch_index join batch_rows using (start_seq)'
      : 'batch_search join batch_index on batch_index.start_seq = batch_search.rowid join batch_rows on batch_rows.start_seq = batch_search.rowid';
  const where = wanted.map(([condition]) => condition).join(' and ');
  return {
    sql: `select batch_rows.row from ${tables} where ${where} order by ${key} desc limit ?`,
    values: [...wanted.map(([, value]) => value), limit],
  };
};

const searchDamaged = (cause: unknown): StoreProblem =>
  new StoreProblem(
    {
      happened: 'The index for searching is damaged.',
      kept: 'The record itself does not rest on it.',
      todo: 'Start Potwatch again: it is then made anew from the record.',
    },
    cause,
  );
