import type { OrdersPage } from '#lib/protocol/orders';
import type { Formula } from '#lib/work/formula/index';

/** Materials that can be said how they are bought: what the formulas name before any of it ever came in, what is there, and what was said of before. */
export const materialsBought = (
  { onHand, goods, names }: Pick<OrdersPage, 'onHand' | 'goods' | 'names'>,
  formulas: readonly Pick<Formula, 'entries'>[],
): readonly { readonly id: string; readonly name: string }[] => {
  const ids = new Set([
    ...formulas.flatMap(({ entries }) => entries.flatMap(({ material }) => material ?? [])),
    ...Object.keys(onHand),
    ...goods.flatMap(({ id, kind }) => (kind === 'material' ? [id] : [])),
  ]);
  return [...ids].map((id) => ({ id, name: names[id] ?? id })).toSorted((a, b) => a.name.localeCompare(b.name));
};
