import type { EntryBodies, Share } from '../entries';
import { asShares } from '../shares';
import type { BatchState, VesselState } from '../state';

/** What can be lost from a vessel. Only liquids evaporate; anything else lost is lost as the mixture it was. */
export const losable = (state: BatchState, vessel: VesselState, cause: EntryBodies['lost']['cause']): readonly Share[] => {
  const shares = asShares(vessel.holds);
  if (cause !== 'evaporation') return shares;
  return shares.filter(({ line }) => ['liquid', 'milk'].includes(state.lines[line]?.plan.material.class ?? ''));
};
