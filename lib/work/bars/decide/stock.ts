import type { BarsCommandOf } from '../commands';
import type { StockMoved } from '../entries';
import { awayAt, hadBy } from '../handed';
import type { BarsState } from '../state';
import { allow, draft, refuse, type BarsDecider, type BarsDecision } from './decision';
import { notForSale } from './shelf';

const short = (state: BarsState, { count, from }: Pick<StockMoved, 'count' | 'from'>): BarsDecision | null => {
  if (state.cut === null) return refuse('wrong-order', { before: 'cut' });
  if (count < 1) return refuse('bad-number', { what: 'count' });
  const left = state.counts[from];
  return count > left ? refuse('no-stock', { left, from }) : null;
};

/** What was given back and is kept apart goes back to the shelf first, or nowhere. */
const keptApart = ({ from }: StockMoved): BarsDecision | null => (from === 'aside' ? refuse('wrong-state', { status: 'aside' }) : null);

const leave = (state: BarsState, kind: 'bars-sold' | 'bars-given', body: StockMoved): BarsDecision =>
  notForSale(state) ?? keptApart(body) ?? short(state, body) ?? allow(draft(kind, body));

export const sell: BarsDecider<'sell'> = (state, { body }) => leave(state, 'bars-sold', body);
export const give: BarsDecider<'give'> = (state, { body }) => leave(state, 'bars-given', body);
/** What is spoiled leaves the shelf even while it is held. */
export const spoil: BarsDecider<'spoil'> = (state, { body }) => short(state, body) ?? allow(draft('bars-spoiled', body));

export const take: BarsDecider<'take'> = (state, { body }) =>
  notForSale(state) ?? short(state, { count: body.count, from: 'shelf' }) ?? allow(draft('bars-taken', body));

/** From a market, from a buyer who gives bars back, or what was kept apart and is sound. Bars may come back while the lot is held. */
export const bringHome: BarsDecider<'bring-home'> = (state, { body }) => {
  const { count, from, to, at, note, was = 'sold', into = 'stock' } = body;
  if (count < 1) return refuse('bad-number', { what: 'count' });
  const left =
    from === 'buyer'
      ? (hadBy(state.moves).find((one) => one.was === was && one.to === to && one.at === at)?.count ?? 0)
      : state.counts[from];
  if (count > left) return refuse('no-stock', { left, from });
  if (from !== 'buyer') return allow(draft('bars-brought-home', { count, from, to, at, note }));
  const back = draft('bars-brought-home', {
    count,
    from,
    to,
    at,
    note,
    ...(was === 'given' ? { was } : {}),
    ...(into === 'stock' ? {} : { into: 'aside' }),
  });
  // Spoiled ones are never on the shelf in between, not even where the second entry is crossed out.
  return into === 'spoiled' ? allow(back, draft('bars-spoiled', { count, to: null, at: null, from: 'aside', note })) : allow(back);
};

/** The market those taken along were taken to, where nobody says which and there is one. */
const marketOf = ({ moves }: BarsState, at: string | null): string | null => {
  if (at !== null || awayAt(moves, null) > 0) return at;
  const markets = [...new Set(moves.map((move) => move.at))].filter((one) => awayAt(moves, one) > 0);
  return markets.length === 1 ? (markets[0] ?? null) : null;
};

/** One count for each lot after a market: taken, brought home, given; the rest was sold. */
export const countMarket = (state: BarsState, { body }: BarsCommandOf<'count-market'>): BarsDecision => {
  if (state.cut === null) return refuse('wrong-order', { before: 'cut' });
  const { took, home, gave, note } = body;
  const at = marketOf(state, body.at);
  const sold = took - home - gave;
  if (took < 1 || home < 0 || gave < 0 || sold < 0) return refuse('bad-number', { what: 'count' });
  const away = awayAt(state.moves, at);
  // What became of bars that were away already is told even while the lot is held; none goes along any more.
  const no = took > away ? notForSale(state) : null;
  if (no !== null) return no;
  const { shelf } = state.counts;
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
