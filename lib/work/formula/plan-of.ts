import type { PlanAnswer } from './answer';
import type { PlanContext } from './context';
import type { Formula } from './formula';
import { problem } from './problem';

/** The plan a formula becomes in this workshop. Never throws: what is wrong with the formula comes back as problems, all at once. */
export const planOf = (formula: Formula, _context: PlanContext): PlanAnswer => ({
  kind: 'problems',
  problems: [problem('missing', 'entries', { name: formula.name })],
});
