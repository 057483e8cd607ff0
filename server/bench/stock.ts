import type { Lot } from '#lib/work/formula/index';
import { mg, type Milligrams } from '#lib/units/mass';
import { stockOf } from '#lib/work/lots/stock';
import { documentsOf } from '#lib/work/shelf/context';
import type { Store } from '../store/store';

/** What is left of each lot of which somebody said what came in. Books that say less than nothing say nothing. */
export const leftOfLots = async ({ lots, shelf }: Pick<Store, 'lots' | 'shelf'>): Promise<ReadonlyMap<string, Milligrams>> => {
  const used = await lots.used();
  const all = documentsOf<Lot>(shelf.now(), 'lot');
  return new Map(
    all.flatMap((lot): readonly (readonly [string, Milligrams])[] => {
      const { left } = stockOf(lot, mg(used.get(lot.id) ?? 0));
      return left === null || left < 0 ? [] : [[lot.id, left]];
    }),
  );
};
