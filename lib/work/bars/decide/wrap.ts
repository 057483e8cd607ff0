import { barsWrapped } from '../wrapped';
import { allow, draft, refuse, type BarsDecider } from './decision';

/** Pieces that nobody takes at once. */
const MOST = 100_000;

/**
 * Bars get what they are sold in: one entry, whatever it takes. Books that say less than was used stop nobody: the pieces lie on the table.
 * A lot of a wrap stands once in it, so that each is drawn once.
 */
export const wrap: BarsDecider<'wrap'> = (state, { body }) => {
  if (state.cut === null) return refuse('wrong-order', { before: 'cut' });
  const { bars, used } = body;
  const unwrapped = state.counts.made - barsWrapped(state);
  if (bars < 0) return refuse('bad-number', { what: 'bars' });
  if (bars > unwrapped) return refuse('no-stock', { left: unwrapped, from: 'unwrapped' });
  if (used.length === 0 || used.some(({ pieces }) => pieces < 1 || pieces > MOST)) return refuse('bad-number', { what: 'pieces' });
  const twice = new Set(used.map(({ goods, lot }) => JSON.stringify([goods, lot]))).size !== used.length;
  return twice ? refuse('already-done', { what: 'pieces' }) : allow(draft('bars-wrapped', body));
};
