import { areSound, countsOf } from '../counts';
import type { BarsState, Kept } from '../state';
import { allow, draft, refuse, type BarsDecider } from './decision';

/** Everything that can be crossed out: a hold is released, a place or a label is simply another. */
const correctable = ({ unmould, cut, trims, wraps, weights, photos, notes, moves }: BarsState): readonly Kept[] => [
  ...unmould,
  ...(cut === null ? [] : [cut]),
  ...trims,
  ...wraps,
  ...weights,
  ...photos,
  ...notes,
  ...moves,
];

export const correct: BarsDecider<'correct'> = (state, { body }) => {
  const found = correctable(state).find(({ entry }) => entry === body.entry);
  if (found === undefined) return refuse('no-such', { what: 'entry', id: body.entry });
  if (found.struck !== null) return refuse('already-done', { what: 'entry' });
  const made = state.cut?.entry === body.entry ? 0 : state.counts.made;
  const moves = state.moves.filter(({ entry }) => entry !== body.entry);
  // The weights of bars that were never cut would stand for nothing, and so would their sales.
  if (made === 0 && state.weights.some(({ struck, for: purpose }) => struck === null && purpose !== 'mass'))
    return refuse('wrong-order', { before: 'weights' });
  if (made === 0 && state.wraps.some(({ struck, entry }) => struck === null && entry !== body.entry))
    return refuse('wrong-order', { before: 'wraps' });
  if (!areSound(countsOf(made, moves))) return refuse('no-stock', { left: state.counts.shelf, from: 'shelf' });
  return allow(draft('bars-corrected', body));
};
