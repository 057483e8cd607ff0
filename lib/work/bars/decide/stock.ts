import type { BarsCommandOf } from '../commands';
import type { StockMoved } from '../entries';
import type { BarsState, StockMove } from '../state';
import { allow, draft, refuse, type BarsDecider, type BarsDecision } from './decision';
import { notForSale } from './shelf';

const short = (state: BarsState, { count, from }: Pick<StockMoved, 'count' | 'from'>): BarsDecision | null => {
  if (state.cut === null) return refuse('wrong-order', { before: 'cut' });
  if (count < 1) return refuse('bad-number', { what: 'count' });
  const left = state.counts[from];
  return count > left ? refuse('no-stock', { left, from }) : null;
};

const leave = (state: BarsState, kind: 'bars-sold' | 'bars-given', body: StockMoved): BarsDecision =>
  notForSale(state) ?? short(state, body) ?? allow(draft(kind, body));

export const sell: BarsDecider<'sell'> = (state, { body }) => leave(state, 'bars-sold', body);
export const give: BarsDecider<'give'> = (state, { body }) => leave(state, 'bars-given', body);
/** What is spoiled leaves the shelf even while it is held. */
export const spoil: BarsDecider<'spoil'> = (state, { body }) => short(state, body) ?? allow(draft('bars-spoiled', body));

export const take: BarsDecider<'take'> = (state, { body }) =>
  notForSale(state) ?? short(state, { count: body.count, from: 'shelf' }) ?? allow(draft('bars-taken', body));

/** How many a buyer has of it still. */
const soldTo = (moves: readonly StockMove[], to: StockMove['to']): number =>
  moves
    .filter((move) => move.struck === null && move.to === to)
    .reduce((sum, { kind, from, count }) => sum + (kind === 'sold' ? count : kind === 'brought-home' && from === 'buyer' ? -count : 0), 0);

export const bringHome: BarsDecider<'bring-home'> = (state, { body }) => {
  if (body.count < 1) return refuse('bad-number', { what: 'count' });
  const left = body.from === 'away' ? state.counts.away : soldTo(state.moves, body.to);
  return body.count > left ? refuse('no-stock', { left, from: body.from }) : allow(draft('bars-brought-home', body));
};

/** One count for each lot after a market: taken, brought home, given; the rest was sold. */
export const countMarket = (state: BarsState, { body: { took, home, gave, at, note } }: BarsCommandOf<'count-market'>): BarsDecision => {
  const no = notForSale(state);
  if (no !== null) return no;
  const sold = took - home - gave;
  if (took < 1 || home < 0 || gave < 0 || sold < 0) return refuse('bad-number', { what: 'count' });
  const { away, shelf } = state.counts;
  // Fewer than were taken along before: nobody knows which those are.
  if (took < away) return refuse('no-stock', { left: away, from: 'away' });
  if (took - away > shelf) return refuse('no-stock', { left: away + shelf, from: 'shelf' });
  const moved: StockMoved = { count: 0, to: null, at, from: 'away', note };
  return allow(
    ...(took > away ? [draft('bars-taken', { count: took - away, at, note })] : []),
    ...(gave > 0 ? [draft('bars-given', { ...moved, count: gave })] : []),
    ...(sold > 0 ? [draft('bars-sold', { ...moved, count: sold })] : []),
    ...(home > 0 ? [draft('bars-brought-home', { count: home, from: 'away', to: null, at, note })] : []),
  );
};
