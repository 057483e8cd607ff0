import type Database from 'better-sqlite3';
import type { BatchListRow } from '#lib/protocol/http';
import type { DerivedRows } from './derived-rows';
import type { Standing } from './standing';
import type { Store } from './store';
import { prepare, query } from './tables';

type LotUse = Store['lots'];

interface Stored {
  readonly batch: string;
  readonly row: string;
}
interface Known {
  readonly text: string;
  readonly row: BatchListRow;
}

/**
 * What the rows of batches say of lots. Newest first, read whole at each question, and taken apart only where a row is another than last
 * time: of ten thousand batches hardly one changes between two questions, and readings of a scale wait meanwhile.
 */
const lotUse = (rows: () => readonly Stored[]): LotUse => {
  let known = new Map<string, Known>();
  const look = (): readonly BatchListRow[] => {
    const before = known;
    known = new Map(
      rows().map(({ batch, row: text }) => {
        const same = before.get(batch);
        return [batch, same?.text === text ? same : { text, row: JSON.parse(text) as BatchListRow }];
      }),
    );
    return [...known.values()].map(({ row }) => row);
  };
  return {
    async used() {
      const sums = new Map<string, number>();
      for (const { lots } of look()) for (const { lot, mass } of lots) sums.set(lot, (sums.get(lot) ?? 0) + mass);
      return sums;
    },
    batches: async (lot) => look().filter(({ lots }) => lots.some((one) => one.lot === lot)),
    once: async (lot) => look().filter(({ onceLots }) => onceLots?.some((one) => one.lot === lot) === true),
    marked: async (mark) => look().filter((row) => row.mark === mark),
  };
};

/** As committed with the entries. */
export const storedLotUse = (db: Database.Database, standing: Standing): LotUse => {
  const all = prepare<object>(db)(() => query.selectFrom('batch_rows').select(['batch', 'row']).orderBy('start_seq', 'desc'));
  return lotUse(() => standing.read(() => all.all({})));
};

/** As it follows from the lines that could be read: for a damaged file. */
export const derivedLotUse = ({ batches }: DerivedRows): LotUse => {
  const rows = [...batches].toSorted(([, a], [, b]) => b.startSeq - a.startSeq).map(([batch, { row }]) => ({ batch, row }));
  return lotUse(() => rows);
};
