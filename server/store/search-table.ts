import type Database from 'better-sqlite3';
import { DEVIATIONS } from '#lib/protocol/find';
import type { Deviation } from '#lib/protocol/find';
import type { BatchSummary } from '#lib/work/batch/index';
import type { Findable } from '#lib/work/batch/found';
import type { Folded } from './project';
import { prepare, query } from './tables';

/** One bit each, so that any of several is one look. */
const BITS: Readonly<Record<Deviation, number>> = { 'over-pour': 1, override: 2, 'by-hand': 4, stated: 8 };

export const bitsOf = (deviation: Deviation | 'any'): number =>
  deviation === 'any' ? DEVIATIONS.reduce((all, one) => all | BITS[one], 0) : BITS[deviation];

/**
 * FTS5 over what a batch is found by. Deleted text is gone from its pages at once (`secure-delete`), since a note may be withdrawn; the
 * short prefixes make a search while typing as fast as one for whole words.
 */
export const SEARCH_TABLE: readonly string[] = [
  `create virtual table batch_search using fts5(mark, formula, materials, lots, notes, tokenize='unicode61 remove_diacritics 2', prefix='2 3')`,
  `insert into batch_search(batch_search, rank) values('secure-delete', 1)`,
];

const bit = (count: number, of: Deviation): number => (count > 0 ? BITS[of] : 0);

/** One batch in the index beside the list. */
export interface Indexed {
  readonly start_seq: number;
  readonly started: number;
  readonly status: string;
  readonly formula: string;
  readonly deviations: number;
}

export const indexed = ({ startSeq, row }: Pick<Folded, 'startSeq' | 'row'>): Indexed => {
  const { startedWall, status, name, overPours, overrides, byHand, stated = 0 } = JSON.parse(row) as BatchSummary;
  const deviations = bit(overPours, 'over-pour') + bit(overrides, 'override') + bit(byHand, 'by-hand') + bit(stated, 'stated');
  return { start_seq: startSeq, started: startedWall, status, formula: name, deviations };
};

/** One batch as it is searched: several of one kind in lines of their own. */
export interface Searched {
  readonly rowid: number;
  readonly mark: string;
  readonly formula: string;
  readonly materials: string;
  readonly lots: string;
  readonly notes: string;
}

export const searched = (startSeq: number, { mark, formula, materials, lots, notes }: Findable): Searched => ({
  rowid: startSeq,
  mark,
  formula,
  materials: materials.join('\n'),
  lots: lots.join('\n'),
  notes: notes.join('\n'),
});

type Put = (folded: Folded) => void;

/** Writes a batch into the index, and into the search when what it is found by is not what stood there. */
export const putIndexed = (db: Database.Database): Put => {
  const index = prepare<Indexed>(db)(({ start_seq, started, status, formula, deviations }) =>
    query
      .insertInto('batch_index')
      .values({ start_seq, started, status, formula, deviations })
      .onConflict((c) => c.column('start_seq').doUpdateSet({ status, deviations })),
  );
  return (folded) => void index.run(indexed(folded));
};

export const putSearched = (db: Database.Database): Put => {
  const remove = prepare<{ rowid: number }>(db)(({ rowid }) => query.deleteFrom('batch_search').where('rowid', '=', rowid));
  const add = prepare<Searched>(db)(({ rowid, mark, formula, materials, lots, notes }) =>
    query.insertInto('batch_search').values({ rowid, mark, formula, materials, lots, notes }),
  );
  return ({ startSeq, found }) => {
    if (found === null) return;
    remove.run({ rowid: startSeq });
    add.run(searched(startSeq, found));
  };
};
