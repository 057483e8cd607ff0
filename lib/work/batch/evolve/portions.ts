import type { EntryId } from '#lib/units/id';
import type { BatchState } from '../state';
import { changeVessel, reweigh } from './parts';

/** A portion that was crossed out stands in the record alone; what it took is in the vessel again, which weighs so much more. */
export const crossOutPortion = (state: BatchState, crossed: EntryId): BatchState => {
  const [first, ...more] = state.parts.filter(({ entry }) => entry === crossed);
  if (first === undefined) return state;
  const parts = state.parts.filter(({ entry }) => entry !== crossed);
  const { vessel } = first;
  const back = reweigh(
    { ...state, parts },
    vessel,
    [first, ...more].reduce((sum, { mass }) => sum + mass, 0),
  );
  return parts.some((one) => one.vessel === vessel) ? back : changeVessel(back, vessel, () => ({ state: 'joined' }));
};
