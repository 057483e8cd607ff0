import { asShares } from '../shares';
import type { BatchState, VesselState } from '../state';
import { isHydroxide } from '../classes';

export const holdsHydroxide = (state: BatchState, vessel: VesselState): boolean =>
  asShares(vessel.holds).some(({ line }) => state.lines[line] !== undefined && isHydroxide(state.lines[line].plan));

/** Back to its bottle goes only what is pure and was never opened to others: one line, and never hydroxide. */
export const goesBack = (state: BatchState, vessel: VesselState): boolean =>
  asShares(vessel.holds).length === 1 && !holdsHydroxide(state, vessel);
