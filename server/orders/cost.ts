import type { CostPage } from '#lib/protocol/orders';
import type { BarsId, BatchId } from '#lib/units/id';
import type { BarsState } from '#lib/work/bars/index';
import { wrappedOf } from '#lib/work/bars/wrapped';
import { withoutLot } from '#lib/work/batch/lots';
import { withCatalogue } from '#lib/work/formula/index';
import type { Lot } from '#lib/work/formula/index';
import { costOfBar } from '#lib/work/orders/cost';
import type { Used } from '#lib/work/orders/cost';
import { NO_TRADE } from '#lib/work/orders/documents';
import type { Goods, Trade } from '#lib/work/orders/documents';
import { priced, pricePerOne } from '#lib/work/orders/price';
import { perBarOf, pricePerPiece } from '#lib/work/orders/wraps';
import { contextOf, documentsOf, makersOwn } from '#lib/work/shelf/context';
import { foldBatch } from '../bench/restore';
import type { Running } from '../http/deps';

const MG = 1000;

/** Money for a gram: of the lot itself where its receipt says, else of the pack its material is usually bought in. */
export const perGramOf = (material: string, lot: Lot | undefined, goods: readonly Goods[]): number | null => {
  const [paid, came] = [priced(lot?.paid), lot?.received?.amount ?? 0];
  if (paid !== null && came > 0) return paid / (came / MG);
  const usual = goods.find(({ id, kind }) => kind === 'material' && id === material);
  return pricePerOne(usual?.price, usual?.pack);
};

interface Wraps {
  readonly wraps: readonly { readonly perBar: number; readonly price: number }[];
  /** Names of what was used and has no price. */
  readonly unpriced: readonly string[];
}

/** What goes around a bar: by the pieces its lot really took where somebody wrapped of it, else as it is meant. */
const wrapsOf = (lot: BarsState, goods: readonly Goods[]): Wraps => {
  const { wrapped } = wrappedOf(lot);
  const used =
    wrapped === undefined || wrapped.bars < 1
      ? goods.map((one) => ({ of: one, lot: null, perBar: perBarOf(one, lot.of.formula.id) }))
      : wrapped.used.map((one) => ({ of: goods.find(({ id }) => id === one.goods), lot: one.lot, perBar: one.pieces / wrapped.bars }));
  const all = used.filter(({ perBar }) => perBar > 0).map((one) => ({ ...one, price: pricePerPiece(one.of, one.lot) }));
  return {
    wraps: all.flatMap(({ perBar, price }) => (price === null ? [] : [{ perBar, price }])),
    unpriced: [...new Set(all.flatMap(({ of, price }) => (price === null ? [of?.name ?? ''] : [])))].filter((name) => name !== ''),
  };
};

/** As the lines tell it, for the row of a program that did not keep it: of a large record rows are not written anew by themselves. */
const unlottedOf = async ({ bench }: Running['store'], batch: BatchId): Promise<ReturnType<typeof withoutLot>> => {
  const state = await foldBatch(bench, batch);
  return state === null ? [] : withoutLot(state);
};

/** What one bar of a lot costs, all lots of its batch sharing what went into it; `undefined` where there are no such bars. */
export const costPage = async ({ store, bars }: Running, id: BarsId): Promise<CostPage | undefined> => {
  const lot = await bars.state(id);
  if (lot === null) return undefined;
  const shelf = store.shelf.now();
  const trade = makersOwn<Trade>(shelf, 'trade') ?? NO_TRADE;
  const [batch, all] = [await store.batches.get(lot.of.batch), await store.bars.of(lot.of.batch)];
  if (batch === null || all.some(({ cut }) => cut === null)) return { money: trade.money, cost: null };
  const lots = new Map(documentsOf<Lot>(shelf, 'lot').map((one) => [one.id, one]));
  const goods = documentsOf<Goods>(shelf, 'goods');
  const { materials, preparations } = withCatalogue(contextOf(shelf, []));
  const names = new Map([...materials, ...preparations].map(({ id: one, name }) => [one, name] as const));
  const used = batch.lots.map(({ lot: one, mass }): Used => {
    const found = lots.get(one);
    const material = found?.material ?? one;
    return { material, lot: one, mass, perGram: perGramOf(material, found, goods) };
  });
  // What was poured of no stated lot cost money too.
  const unlotted = (batch.unlotted ?? (await unlottedOf(store, lot.of.batch))).map(({ material, mass }): Used => ({
    material,
    lot: null,
    mass,
    perGram: perGramOf(material, undefined, goods),
  }));
  const { wraps, unpriced } = wrapsOf(lot, goods);
  const made = all.reduce((sum, { counts }) => sum + counts.made, 0);
  const cost = costOfBar([...used, ...unlotted], made, wraps, trade.minutes, priced(trade.rate));
  const named = (material: string): string => names.get(material) ?? material;
  return {
    money: trade.money,
    cost:
      cost === null
        ? null
        : {
            ...cost,
            unknown: [...cost.unknown.map(named), ...unpriced],
            of: cost.of.map(({ material, each }) => ({ name: named(material), each })),
          },
  };
};
