import { plannedSuperfat } from '../lye-heavy';
import { asPoured } from '../poured/as-poured';
import { benchOf, type Bench } from './bench';

/** Standard uncertainties below a superfat where joining asks for a person's word. */
const DOUBTS = 2;

/**
 * The bench with its least superfat drawn up to where no doubt about the values makes it lye-heavy: by as much as the working value or
 * the mean may be off, never beyond what was planned (a person chose that), nor beyond the most that the formula says. The same bench
 * where it is there already or nobody can say.
 */
export const surer = (bench: Bench): Bench => {
  const { state, pot, facts } = bench;
  const answer = asPoured(state);
  if (answer.kind !== 'figures' || answer.superfat === null) return bench;
  const { working, value, u } = answer.superfat;
  const doubt = working - Math.min(working, value) + DOUBTS * u;
  const [low, high] = pot.limits.superfat ?? [0, 1];
  const least = Math.min(doubt, plannedSuperfat(state.plan) ?? doubt, high);
  return least <= low ? bench : benchOf(state, { ...pot, limits: { ...pot.limits, superfat: [least, high] } }, facts);
};
