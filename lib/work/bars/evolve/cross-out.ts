import type { EntryId } from '#lib/units/id';
import { countsOf } from '../counts';
import type { BarsEntryOf } from '../entries';
import type { BarsState, Kept } from '../state';

const crossing =
  (entry: EntryId, by: EntryId) =>
  <T extends Kept>(list: readonly T[]): readonly T[] =>
    list.map((one) => (one.entry === entry ? { ...one, struck: by } : one));

/** One entry counts no longer. A cut that is crossed out leaves a log again. */
export const crossedOut = (state: BarsState, { id, body }: BarsEntryOf<'bars-corrected'>): BarsState => {
  const cross = crossing(body.entry, id);
  const moves = cross(state.moves);
  const cut = state.cut?.entry === body.entry ? null : state.cut;
  return {
    ...state,
    unmould: cross(state.unmould),
    cut,
    trims: cross(state.trims),
    wraps: cross(state.wraps),
    weights: cross(state.weights),
    photos: cross(state.photos),
    notes: cross(state.notes),
    moves,
    counts: countsOf(cut?.count ?? 0, moves),
  };
};
