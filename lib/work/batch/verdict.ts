import type { Milligrams } from '#lib/units/mass';
import type { LinePlan } from './plan';

export type Verdict = 'short' | 'within' | 'over';

/** Where a line stands with `total` in it: within means |total − target| ≤ tolerance. */
export const verdictOf = (plan: LinePlan, total: Milligrams): Verdict => {
  if (total < plan.target - plan.tolerance) return 'short';
  return total > plan.target + plan.tolerance ? 'over' : 'within';
};

/** An over-pour is red when a result leaves the formula's limits, and when nobody has computed them: unknown is not a number. */
export const isRed = (plan: LinePlan, total: Milligrams): boolean => plan.upper === null || total > plan.upper;
