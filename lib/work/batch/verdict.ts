import type { Milligrams } from '#lib/units/mass';
import type { LinePlan } from './plan';

export type Verdict = 'short' | 'within' | 'over';

/** Where a line stands with `total` in it: within means |total − target| ≤ tolerance. */
export const verdictOf = (plan: LinePlan, total: Milligrams): Verdict => {
  if (total < plan.target - plan.tolerance) return 'short';
  return total > plan.target + plan.tolerance ? 'over' : 'within';
};

/** Beyond what keeps the formula's limits, or nobody has computed that: unknown is not a number. */
export const isOutside = (plan: LinePlan, total: Milligrams): boolean => plan.upper === null || total > plan.upper;
