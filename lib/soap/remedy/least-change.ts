import { layoutOf, linearOf } from './linear';
import { finalOf, type Programme } from './programme';
import type { Solver } from './solver';

/** The least change in masses that keeps every limit, as if a scale could show anything. */
export interface LeastChange {
  readonly kind: 'optimal';
  /** Σ |final − reference|, grams. */
  readonly objective: number;
  readonly final: readonly number[];
  /** Of `final`, what is not of a mixture. */
  readonly own: readonly number[];
  /** Fraction of each mixture that stays. */
  readonly kept: readonly number[];
  /** How much less the change were for a unit more of a limit: at least 0, in the order of the limits. */
  readonly multipliers: readonly number[];
}

/** `null`: no masses keep every limit. @throws SolverFailed */
export const leastChange = (programme: Programme, solve: Solver): LeastChange | null => {
  // No mass lies between such bounds, and the solver asks not to be given them.
  if (programme.quantities.some(({ least, most }) => least > most)) return null;
  const solved = solve(linearOf(programme));
  if (solved.kind === 'infeasible') return null;
  const { quantities, mixtures } = programme;
  const { own: first, kept: firstKept } = layoutOf(programme);
  const own = quantities.map((_, i) => solved.x[first + i] ?? 0);
  const kept = mixtures.map((_, v) => solved.x[firstKept + v] ?? 1);
  return {
    kind: 'optimal',
    objective: solved.objective,
    final: finalOf(programme, own, kept),
    own,
    kept,
    // A limit of "at most" lowers the objective as it gives way.
    multipliers: programme.limits.map((_, r) => 0 - (solved.rows[quantities.length + r] ?? 0)),
  };
};
