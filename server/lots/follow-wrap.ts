import type { FollowedBars, FollowedBatch, FollowWrap, WrapLotKnown } from '#lib/protocol/lots';
import { sumOf } from '#lib/units/sum';
import type { BarsSummary } from '#lib/work/bars/index';
import type { Goods } from '#lib/work/orders/documents';
import type { Shelf } from '#lib/work/shelf/shelf';
import type { Store } from '../store/store';

type Piece = Pick<WrapLotKnown, 'goods' | 'lot'>;

/** As it is called now, or was when it was put away; else its id. */
const nameOf = (shelf: Shelf, goods: string): string =>
  (shelf.goods.get(goods)?.versions.findLast(({ document }) => document !== null)?.document as Goods | null | undefined)?.name ?? goods;

const isSame = (a: Piece, b: Piece): boolean => a.goods === b.goods && a.lot === b.lot;
const usedBy = ({ wrapped }: BarsSummary): readonly (Piece & { readonly pieces: number })[] => wrapped?.used ?? [];

/** Every lot there is or was, of wraps that stand and of those put away, and whatever bars were wrapped in; by name, then mark. */
export const wrapLots = async (store: Pick<Store, 'bars' | 'shelf'>): Promise<readonly WrapLotKnown[]> => {
  const shelf = store.shelf.now();
  const kept = [...shelf.goods.values()].flatMap(({ versions }) =>
    versions.flatMap(({ document }): readonly Piece[] => {
      const goods = document as unknown as Goods | null;
      if (goods?.kind !== 'wrap') return [];
      return (goods.lots ?? []).map(({ mark }) => ({ goods: goods.id, lot: mark }));
    }),
  );
  const around = [
    ...(await store.bars.wrapped()).flatMap(usedBy),
    ...(await store.bars.onceWrapped()).flatMap((one) => one.onceWrapped ?? []),
  ];
  const all = new Map(
    [...kept, ...around].map(({ goods, lot }) => [JSON.stringify([goods, lot]), { goods, name: nameOf(shelf, goods), lot }]),
  );
  return [...all.values()].toSorted((a, b) => a.name.localeCompare(b.name) || (a.lot ?? '').localeCompare(b.lot ?? ''));
};

/** What bars were wrapped in, by name. */
export const wrapsNamed = (shelf: Shelf, wrapped: BarsSummary['wrapped']): FollowedBars['wraps'] =>
  (wrapped?.used ?? []).map((one) => ({ ...one, name: nameOf(shelf, one.goods) }));

/**
 * From a lot of a wrap to the bars it is around, and who has them; `null`: no such lot was ever kept or used.
 * @param followed one batch with all its bars
 */
export const followWrap = async (
  store: Pick<Store, 'bars' | 'shelf'>,
  piece: Piece,
  followed: (batch: string) => Promise<FollowedBatch | null>,
): Promise<FollowWrap | null> => {
  const lots = await wrapLots(store);
  const lot = lots.find((one) => isSame(one, piece));
  if (lot === undefined) return null;
  const around = (await store.bars.wrapped()).filter((row) => usedBy(row).some((one) => isSame(one, piece)));
  const once = (await store.bars.onceWrapped()).filter(({ onceWrapped }) => onceWrapped?.some((one) => isSame(one, piece)) === true);
  const batchesOf = async (rows: readonly BarsSummary[]): Promise<readonly FollowedBatch[]> => {
    const ids = new Set(rows.map(({ id }) => id));
    const all = await Promise.all([...new Set(rows.map(({ batch }) => batch))].map(followed));
    return all.flatMap((one) => (one === null ? [] : [{ ...one, bars: one.bars.filter(({ id }) => ids.has(id)) }]));
  };
  return {
    ...lot,
    pieces: sumOf(
      around.flatMap(usedBy).filter((one) => isSame(one, piece)),
      ({ pieces }) => pieces,
    ),
    batches: await batchesOf(around),
    once: await batchesOf(once),
  };
};
