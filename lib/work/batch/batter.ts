import { sumOfAll } from '#lib/units/sum';
import { countedOf } from './lye-heavy';
import { asPoured } from './poured/as-poured';
import type { BatchState } from './state';

/** All that is or will be poured together: cm³ at pouring, where that is worked out, and its mass, mg; what is still to come at plan. */
export const batterOf = (state: BatchState): { readonly ml: number | null; readonly mass: number } => {
  const answer = asPoured(state);
  if (answer.kind === 'figures') {
    const mass = 1000 * sumOfAll(answer.masses.grams);
    return { ml: answer.volume?.value ?? null, mass: Math.round(mass) };
  }
  return { ml: null, mass: Object.values(state.lines).reduce((sum, line) => sum + countedOf(line), 0) };
};

/** Which moulds it is poured into is asked of a batch that has none, as one that was set aside, and before its batter is made. */
export const mouldsToName = ({ plan, joined, endedWall }: BatchState): boolean =>
  plan.moulds === undefined && joined === null && endedWall === null;
