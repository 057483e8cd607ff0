import type { BarsState, StockMove } from '#lib/work/bars/index';
import type { BarsSummary } from '#lib/work/bars/index';
import { csvRow } from '#lib/work/csv';
import type { Lot } from '#lib/work/formula/index';
import type { Complaint } from '#lib/work/lots/complaint';
import { stockOf } from '#lib/work/lots/stock';
import { mg } from '#lib/units/mass';
import type { Order } from '#lib/work/orders/documents';
import { grams, stamp } from './csv';

/** What stands beside the batches, as tables of the same kind: words are the record's own codes, masses grams, days as typed. */
export interface CsvTable<T> {
  readonly head: string;
  readonly row: (of: T) => string;
}

const table = <T>(columns: Readonly<Record<string, (of: T) => string>>): CsvTable<T> => ({
  head: csvRow(Object.keys(columns)),
  row: (of) => csvRow(Object.values(columns).map((cell) => cell(of))),
});

const optional = (milligrams: number | null | undefined): string => (milligrams == null ? '' : grams(milligrams));
const yes = (is: boolean): string => (is ? 'yes' : '');

/** One bar lot. `batch`: its mark. */
export const barsTable = table<{ readonly row: BarsSummary; readonly batch: string }>({
  bars: ({ row }) => row.mark,
  batch: ({ batch }) => batch,
  formula: ({ row }) => row.formula.name,
  'formula version': ({ row }) => String(row.formula.version),
  realm: ({ row }) => row.realm,
  mould: ({ row }) => row.mould.name,
  moulds: ({ row }) => String(row.moulds),
  pattern: ({ row }) => row.pattern,
  'poured UTC': ({ row }) => stamp(row.poured, 0),
  'cut UTC': ({ row }) => (row.cut === null ? '' : stamp(row.cut.wall, 0)),
  made: ({ row }) => String(row.counts.made),
  'on the shelf': ({ row }) => String(row.counts.shelf),
  'at a market': ({ row }) => String(row.counts.away),
  'kept apart': ({ row }) => String(row.counts.aside),
  sold: ({ row }) => String(row.counts.sold),
  given: ({ row }) => String(row.counts.given),
  spoiled: ({ row }) => String(row.counts.spoiled),
  'label g': ({ row }) => optional(row.label),
  place: ({ row }) => row.place?.name ?? '',
  held: ({ row }) => row.held ?? '',
});

/** What left, was taken to a market or came back. `who`, `where`: names where they were not erased, else the ids of the record. */
export interface Moved {
  readonly bars: Pick<BarsState, 'mark'>;
  readonly move: StockMove;
  readonly who: string;
  readonly where: string;
}
export const movesTable = table<Moved>({
  bars: ({ bars }) => bars.mark,
  what: ({ move }) => move.kind,
  count: ({ move }) => String(move.count),
  from: ({ move }) => move.from,
  who: ({ who }) => who,
  'order or place': ({ where }) => where,
  note: ({ move }) => move.note,
  by: ({ move }) => move.by,
  at: ({ move }) => stamp(move.wall, move.offsetMin),
  'crossed out': ({ move }) => yes(move.struck !== null),
});

/** `used`: mg that batches took. `away`: it was put away. */
export interface LotRow {
  readonly lot: Lot;
  readonly material: string;
  readonly used: number;
  readonly away: boolean;
}
export const lotsTable = table<LotRow>({
  lot: ({ lot }) => lot.mark,
  id: ({ lot }) => lot.id,
  material: ({ material }) => material,
  supplier: ({ lot }) => lot.supplier ?? lot.certificate?.supplier ?? '',
  received: ({ lot }) => lot.received?.day ?? '',
  'received g': ({ lot }) => optional(lot.received?.amount),
  opened: ({ lot }) => lot.opened ?? '',
  'best before': ({ lot }) => lot.bestBefore ?? '',
  state: ({ lot }) => lot.state ?? 'in-use',
  why: ({ lot }) => lot.why ?? '',
  paid: ({ lot }) => lot.paid ?? '',
  'put right g': ({ lot }) => grams(stockOf(lot, mg(0)).adjusted),
  'used g': ({ used }) => grams(used),
  'left g': ({ lot, used }) => optional(stockOf(lot, mg(used)).left),
  'certificate of': ({ lot }) => lot.certificate?.date ?? '',
  files: ({ lot }) => lot.files.map(({ sha256 }) => sha256).join(' '),
  'put away': ({ away }) => yes(away),
});

/** One row a line of the order. `buyer`: a name where it was not erased. */
export interface OrderRow {
  readonly order: Order;
  readonly buyer: string;
  readonly formula: string;
  readonly bars: number | null;
  readonly label: string | null;
}
export const ordersTable = table<OrderRow>({
  order: ({ order }) => order.name,
  id: ({ order }) => order.id,
  kind: ({ order }) => order.kind,
  buyer: ({ buyer }) => buyer,
  due: ({ order }) => order.due,
  formula: ({ formula }) => formula,
  bars: ({ bars }) => (bars === null ? '' : String(bars)),
  'label at least g': ({ label }) => label ?? '',
  state: ({ order }) => order.state,
  note: ({ order }) => order.note,
});

/** `batches`: marks of those it may be of. */
export const complaintsTable = table<{ readonly said: Complaint; readonly batches: readonly string[] }>({
  day: ({ said }) => said.day,
  mark: ({ said }) => said.mark,
  'no such bars': ({ said }) => yes(said.isUnknown === true),
  batches: ({ batches }) => batches.join(' '),
  'what happened': ({ said }) => said.what,
  'what was done': ({ said }) => said.action,
  reaction: ({ said }) => said.reaction,
  held: ({ said }) => said.held.join(' '),
});

/** Ids as they stand in entries; an erased name is empty. */
export const peopleTable = table<{ readonly id: string; readonly role: string; readonly name: string | null }>({
  id: ({ id }) => id,
  role: ({ role }) => role,
  name: ({ name }) => name ?? '',
});

/** A picture of a batch or of bars. `file`: where it lies in the archive. */
export interface PictureRow {
  readonly of: string;
  readonly shows: string;
  readonly note: string;
  readonly at: { readonly wall: number; readonly offsetMin: number };
  readonly by: string;
  readonly struck: boolean;
  readonly file: string;
}
export const picturesTable = table<PictureRow>({
  of: ({ of }) => of,
  shows: ({ shows }) => shows,
  note: ({ note }) => note,
  at: ({ at }) => stamp(at.wall, at.offsetMin),
  by: ({ by }) => by,
  'crossed out': ({ struck }) => yes(struck),
  file: ({ file }) => file,
});
