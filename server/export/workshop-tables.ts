import { as } from '#lib/units/id';
import type { BarsId } from '#lib/units/id';
import type { BarsRow } from '#lib/protocol/bars';
import type { BarsState } from '#lib/work/bars/index';
import { materialsById } from '#lib/work/formula/index';
import type { Formula, Lot } from '#lib/work/formula/index';
import type { Complaint } from '#lib/work/lots/complaint';
import type { Order } from '#lib/work/orders/documents';
import { contextOf, documentsOf } from '#lib/work/shelf/context';
import { putAway } from '#lib/work/shelf/shelf';
import type { Shelf } from '#lib/work/shelf/shelf';
import * as csv from '#lib/words/record/workshop-csv';
import type { CsvTable, OrderRow, PictureRow } from '#lib/words/record/workshop-csv';
import { orderName } from '../orders/called';
import type { People } from '../store/people';
import type { Store } from '../store/store';
import { fileIn } from './kept-files';

export interface TableParts {
  readonly store: Pick<Store, 'bars' | 'lots' | 'shelf'>;
  readonly barsState: (id: BarsId) => Promise<BarsState | null>;
  readonly people: Pick<People, 'people'>;
}

/** A table as a file of the archive. */
type NamedTable = readonly [name: string, text: string];

const PAGE = 200;

const told = <T>(table: CsvTable<T>, rows: readonly T[]): string => table.head + rows.map((row) => table.row(row)).join('');

/**
 * Everything that stands beside the batches. `marks`: of all batches, by id. `pictures`: those of the batches, to which the bars' are added.
 */
export async function* workshopTables(
  parts: TableParts,
  marks: ReadonlyMap<string, string>,
  pictures: readonly PictureRow[],
): AsyncGenerator<NamedTable> {
  const { store, people } = parts;
  const shelf = store.shelf.now();
  const everybody = people.people();
  const names = new Map<string, string>(everybody.map(({ id, name }) => [id, name ?? id]));
  yield* barTables(parts, shelf, names, marks, pictures);
  yield ['lots.csv', told(csv.lotsTable, lotRows(shelf, await store.lots.used()))];
  yield ['orders.csv', told(csv.ordersTable, orderRows(shelf, names))];
  const complaints = documentsOf<Complaint>(shelf, 'complaint').map((said) => ({
    said,
    batches: [said.batch, ...(said.also ?? [])].map((id) => marks.get(id) ?? id),
  }));
  yield ['complaints.csv', told(csv.complaintsTable, complaints)];
  yield ['people.csv', told(csv.peopleTable, everybody)];
}

/** Newest first; what left or came back in the order it did. */
async function* barTables(
  { store, barsState }: TableParts,
  shelf: Shelf,
  names: ReadonlyMap<string, string>,
  marks: ReadonlyMap<string, string>,
  pictures: readonly PictureRow[],
): AsyncGenerator<NamedTable> {
  const [bars, moves, shots] = [[csv.barsTable.head], [csv.movesTable.head], [...pictures]];
  for await (const row of allBars(store)) {
    bars.push(csv.barsTable.row({ row, batch: marks.get(row.batch) ?? row.batch }));
    const state = await barsState(as(row.id));
    for (const move of state?.moves ?? []) {
      const where = move.at === null ? '' : orderName(shelf, move.at);
      moves.push(csv.movesTable.row({ bars: row, move, who: move.to === null ? '' : (names.get(move.to) ?? move.to), where }));
    }
    for (const { sha256, note, wall, offsetMin, by, struck } of state?.photos ?? [])
      shots.push({ of: row.mark, shows: 'bars', note, at: { wall, offsetMin }, by, struck: struck !== null, file: fileIn(store, sha256) });
  }
  yield ['bars.csv', bars.join('')];
  yield ['sales.csv', moves.join('')];
  yield ['pictures.csv', told(csv.picturesTable, shots)];
}

async function* allBars({ bars }: Pick<Store, 'bars'>): AsyncGenerator<BarsRow> {
  let before: string | null = null;
  do {
    const page = await bars.list({ before, limit: PAGE });
    yield* page.bars;
    before = page.next;
  } while (before !== null);
}

const lotRows = (shelf: Shelf, used: ReadonlyMap<string, number>) => {
  const materials = materialsById(contextOf(shelf, []).materials);
  const row = (lot: Lot, away: boolean) => {
    const material = materials.get(lot.material)?.name ?? lot.material;
    return { lot, material, used: used.get(lot.id) ?? 0, away };
  };
  return [
    ...documentsOf<Lot>(shelf, 'lot').map((lot) => row(lot, false)),
    ...putAway(shelf, 'lot').map(({ last }) => row(last.document as unknown as Lot, true)),
  ];
};

const orderRows = (shelf: Shelf, names: ReadonlyMap<string, string>): readonly OrderRow[] => {
  const formulas = new Map(documentsOf<Formula>(shelf, 'formula').map(({ id, name }) => [id, name]));
  return documentsOf<Order>(shelf, 'order').flatMap((order): readonly OrderRow[] => {
    const buyer = order.buyer === null ? '' : (names.get(order.buyer) ?? order.buyer);
    const lines = order.wants.map(({ formula, bars, label }) => ({
      order,
      buyer,
      formula: formulas.get(formula) ?? formula,
      bars,
      label,
    }));
    return lines.length > 0 ? lines : [{ order, buyer, formula: '', bars: null, label: null }];
  });
};
