import type { PersonId } from '#lib/units/id';
import type { StockMove } from './state';

/** Bars somebody has: sold or given, to whom (`null`: not said), and for which order or market. */
export interface Had {
  readonly was: 'sold' | 'given';
  readonly to: PersonId | null;
  readonly at: string | null;
  readonly count: number;
  /** When it last went there, or came from there. */
  readonly wall: number;
  readonly offsetMin: number;
}

/** What of a lot went to one order or market. `away`: taken along, and not counted since. */
export interface ForOrder {
  readonly order: string;
  readonly sold: number;
  readonly given: number;
  readonly away: number;
}

const wasOf = ({ kind, from, was }: StockMove): Had['was'] | null =>
  kind === 'sold' || kind === 'given' ? kind : kind === 'brought-home' && from === 'buyer' ? (was ?? 'sold') : null;

/** Who has how many of a lot, by every move that stands: what they gave back is theirs no longer. */
export const hadBy = (moves: readonly StockMove[]): readonly Had[] => {
  const found = new Map<string, Had>();
  for (const move of moves) {
    const was = move.struck === null ? wasOf(move) : null;
    if (was === null) continue;
    const { to, at, kind, count, wall, offsetMin } = move;
    const key = JSON.stringify([was, to, at]);
    const before = found.get(key)?.count ?? 0;
    found.set(key, { was, to, at, count: kind === 'brought-home' ? before - count : before + count, wall, offsetMin });
  }
  return [...found.values()].filter(({ count }) => count > 0);
};

/** Bars taken along to one market, and neither home nor gone since. */
export const awayAt = (moves: readonly StockMove[], market: string | null): number =>
  moves.reduce((sum, { struck, at, kind, from, count }) => {
    if (struck !== null || at !== market) return sum;
    return kind === 'taken' ? sum + count : from === 'away' ? sum - count : sum;
  }, 0);

/** What went to each order or market, in the order they first took of it. */
export const forOrders = (moves: readonly StockMove[]): readonly ForOrder[] => {
  const had = hadBy(moves);
  const orders = [...new Set(moves.flatMap(({ at }) => at ?? []))];
  const sum = (order: string, was: Had['was']): number =>
    had.reduce((total, one) => (one.at === order && one.was === was ? total + one.count : total), 0);
  return orders
    .map((order) => ({ order, sold: sum(order, 'sold'), given: sum(order, 'given'), away: awayAt(moves, order) }))
    .filter(({ sold, given, away }) => sold + given + away > 0);
};

/**
 * Bars of a lot that are away at a market, by what is told of it in a list. `null`: nobody says which, and there is one that can be meant;
 * where there are several, none is.
 */
export const awayFor = (
  { counts, orders }: { readonly counts: { readonly away: number }; readonly orders: readonly ForOrder[] },
  market: string | null,
): number => {
  const named = orders.filter(({ away }) => away > 0);
  const of = (order: string): number => named.find((one) => one.order === order)?.away ?? 0;
  if (market !== null) return of(market);
  const nowhere = counts.away - named.reduce((sum, { away }) => sum + away, 0);
  return nowhere > 0 ? nowhere : named.length === 1 ? (named[0]?.away ?? 0) : 0;
};
