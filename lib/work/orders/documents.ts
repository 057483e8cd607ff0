import * as z from 'zod/mini';
import { asTyped, count, date, id, name, note } from '../formula/schema/words';
import { oneOf } from '../words';

/** An order of a shop or a person, or a market: what has to be there on a day. */
export interface Order {
  readonly id: string;
  readonly kind: 'order' | 'market';
  /** As the maker calls it: "Spring market". No name of a person. */
  readonly name: string;
  /** Who bought it, by id; the name stands where it can be erased. */
  readonly buyer: string | null;
  readonly due: string;
  readonly wants: readonly OrderLine[];
  readonly state: 'open' | 'done' | 'dropped';
  readonly note: string;
}

export interface OrderLine {
  readonly formula: string;
  readonly bars: number;
  /** g on the label at least, as typed; `null`: as they are. */
  readonly label: string | null;
}

/** How this workshop makes and sells, beside its habits at the bench. One document, `id` "maker". */
export interface Trade {
  readonly id: 'maker';
  /** Days of the week somebody pours on: 1 Monday … 7 Sunday. */
  readonly days: readonly number[];
  readonly batchesADay: number;
  /** Bars there is room for on the curing shelf; `null` until somebody has counted. */
  readonly shelf: number | null;
  /** Money an hour is worth, as typed, and minutes of work on one batch from the first weight to the last wrap. */
  readonly rate: string | null;
  readonly minutes: number | null;
  /** As written behind a sum of money: "EUR". */
  readonly money: string;
  /** By mould: how many there are (one where nobody has said), and bars for sale of one, until its own lots tell. */
  readonly moulds: Readonly<Record<string, { readonly owned: number; readonly bars: number | null }>>;
}

/** How something is bought: a material, or a wrap or box that goes around a bar. */
export interface Goods {
  /** Id of the material; of a wrap its own. */
  readonly id: string;
  readonly kind: 'material' | 'wrap';
  /** Of a wrap; a material has its own name. */
  readonly name: string;
  /** g of one pack as typed, or pieces. */
  readonly pack: string | null;
  /** Money for one pack, as typed. */
  readonly price: string | null;
  /** Days until it is here. */
  readonly days: number | null;
  /** Of a wrap: pieces on one bar, as typed, and pieces on hand. */
  readonly perBar: string | null;
  readonly onHand: number | null;
  /** Of a wrap: pieces drawn of those in no lot when `onHand` was counted; left out: none. */
  readonly drawn?: number;
  /** Of a wrap: its lots, the oldest first. */
  readonly lots?: readonly WrapLot[];
  /** Of a wrap: the formula whose bars alone it goes around; left out: any. */
  readonly only?: string;
}

/** One delivery of a wrap. */
export interface WrapLot {
  /** As written on the parcel. */
  readonly mark: string;
  /** As counted, and what had been drawn of it by then. */
  readonly onHand: number;
  readonly drawn: number;
  /** Money for one pack of it, as typed; `null`: as usual. */
  readonly price: string | null;
}

/** Nothing said yet: weekdays, one batch a day. */
export const NO_TRADE: Trade = {
  id: 'maker',
  days: [1, 2, 3, 4, 5],
  batchesADay: 1,
  shelf: null,
  rate: null,
  minutes: null,
  money: '',
  moulds: {},
};

/** More bars than a workshop of this kind can mean. */
const MOST = 100_000;
const some = count.check(z.gte(0), z.lte(MOST));

export const orderSchema: z.ZodMiniType<Order> = z.strictObject({
  id,
  kind: oneOf<Order['kind']>({ order: true, market: true }),
  name: name.check(z.minLength(1)),
  buyer: z.nullable(id),
  due: date,
  wants: z
    .array(z.strictObject({ formula: id, bars: some.check(z.gte(1)), label: z.nullable(asTyped) }))
    .check(z.minLength(1), z.maxLength(100)),
  state: oneOf<Order['state']>({ open: true, done: true, dropped: true }),
  note,
});

export const tradeSchema: z.ZodMiniType<Trade> = z.strictObject({
  id: z.literal('maker'),
  days: z.array(count.check(z.gte(1), z.lte(7))).check(z.maxLength(7)),
  batchesADay: count.check(z.gte(1), z.lte(20)),
  shelf: z.nullable(some),
  rate: z.nullable(asTyped),
  minutes: z.nullable(count.check(z.gte(0), z.lte(10_000))),
  money: z.string().check(z.maxLength(8)),
  moulds: z.record(id, z.strictObject({ owned: some.check(z.lte(1000)), bars: z.nullable(some.check(z.gte(1))) })),
});

const counted = z.int().check(z.gte(-MOST), z.lte(10 * MOST));
const wrapLot: z.ZodMiniType<WrapLot> = z.strictObject({
  mark: name.check(z.minLength(1)),
  onHand: counted,
  drawn: z.int(),
  price: z.nullable(asTyped),
});

export const goodsSchema: z.ZodMiniType<Goods> = z.strictObject({
  id,
  kind: oneOf<Goods['kind']>({ material: true, wrap: true }),
  name,
  pack: z.nullable(asTyped),
  price: z.nullable(asTyped),
  days: z.nullable(count.check(z.gte(0), z.lte(1000))),
  perBar: z.nullable(asTyped),
  onHand: z.nullable(counted),
  drawn: z.exactOptional(z.int()),
  lots: z.exactOptional(z.array(wrapLot).check(z.maxLength(60))),
  only: z.exactOptional(id),
});
