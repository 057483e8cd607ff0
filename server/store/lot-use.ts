import type Database from 'better-sqlite3';
import type { BatchListRow } from '#lib/protocol/http';
import type { DerivedRows } from './derived-rows';
import type { Standing } from './standing';
import type { Store } from './store';

type LotUse = Store['lots'];

const rowOf = (text: string): BatchListRow => JSON.parse(text) as BatchListRow;

/** What the rows of batches say of lots: committed with the entries they follow from. */
export const storedLotUse = (db: Database.Database, standing: Standing): LotUse => {
  const used = db.prepare<[], { lot: string; mass: number }>(
    `select one.value ->> '$.lot' as lot, sum(one.value ->> '$.mass') as mass from batch_rows, json_each(row, '$.lots') as one group by 1`,
  );
  const of = db.prepare<[string], { row: string }>(
    `select row from batch_rows where exists (select 1 from json_each(row, '$.lots') as one where one.value ->> '$.lot' = ?)
     order by start_seq desc`,
  );
  const marked = db.prepare<[string], { row: string }>(`select row from batch_rows where row ->> '$.mark' = ? order by start_seq desc`);
  return {
    used: async () => new Map(standing.read(() => used.all()).map(({ lot, mass }) => [lot, mass])),
    batches: async (lot) => standing.read(() => of.all(lot)).map(({ row }) => rowOf(row)),
    marked: async (mark) => standing.read(() => marked.all(mark)).map(({ row }) => rowOf(row)),
  };
};

/** The same as it follows from the lines that could be read: for a damaged file. */
export const derivedLotUse = ({ batches }: DerivedRows): LotUse => {
  const rows = [...batches.values()].toSorted((a, b) => b.startSeq - a.startSeq).map(({ row }) => rowOf(row));
  return {
    async used() {
      const sums = new Map<string, number>();
      for (const { lots } of rows) for (const { lot, mass } of lots) sums.set(lot, (sums.get(lot) ?? 0) + mass);
      return sums;
    },
    batches: async (lot) => rows.filter(({ lots }) => lots.some((one) => one.lot === lot)),
    marked: async (mark) => rows.filter((row) => row.mark === mark),
  };
};
