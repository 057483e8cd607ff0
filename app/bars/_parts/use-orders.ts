'use client';
import type { BarsRow } from '#lib/protocol/bars';
import type { ShelfItem } from '#lib/protocol/shelf';
import type { Order } from '#lib/work/orders/documents';
import { shelfApi } from '../../_ui/shelf-api';
import { useAsked } from '../../_ui/use-asked';
import { sales } from '../messages-sales';

/** An order or market as it was last kept. */
export interface OrderKept {
  readonly order: Order;
  readonly version: number;
}

const keptOf = ({ document, version }: ShelfItem): OrderKept => ({ order: document as unknown as Order, version });

/** Open orders and markets, the next due first; none while they are asked for. */
export const useOrders = (): { readonly orders: readonly OrderKept[]; readonly again: () => void } => {
  const { asked, again } = useAsked(() => shelfApi.list('order'));
  const all = asked.state === 'there' ? asked.value.items.map(keptOf) : [];
  const orders = all.filter(({ order }) => order.state === 'open').toSorted((a, b) => a.order.due.localeCompare(b.order.due));
  return { orders, again };
};

/** For a choice; first those that ask for this soap. */
export const orderOptions = (orders: readonly OrderKept[], row: Pick<BarsRow, 'formula'>): readonly (readonly [string, string])[] => {
  const asks = ({ order }: OrderKept): boolean => order.wants.some(({ formula }) => formula === row.formula.id);
  const sorted = orders.toSorted((a, b) => Number(asks(b)) - Number(asks(a)));
  return [['', sales.noOrder], ...sorted.map(({ order }) => [order.id, sales.order(order.name, order.due)] as const)];
};

export const marketOptions = (orders: readonly OrderKept[]): readonly (readonly [string, string])[] => [
  ['', sales.noMarket],
  ...orders.flatMap(({ order }) => (order.kind === 'market' ? [[order.id, order.name] as const] : [])),
];
