import { layoutOf, linearOf } from './linear';
import { finalOf, type Programme } from './programme';
import type { Column, Linear, Solver } from './solver';

/** Limits that cannot all be kept. */
interface Clash {
  /**
   * Least by which all limits that may give way would have to at once, in the rows' own unit; and the weight of each in what proves it:
   * at least 0, adding up to 1 (Farkas).
   */
  readonly common: number;
  readonly weights: readonly number[];
  /** Least that each would have to give way so that their sum is least; and the masses that go with it. Same order and unit. */
  readonly slacks: readonly number[];
  readonly final: readonly number[];
}

const FREE = Number.POSITIVE_INFINITY;
const slack = (cost: number): Column => ({ cost, lower: 0, upper: FREE, integer: false });

/** The limits with something added that lets them give way; what a change costs does not count. */
const elastic = (programme: Programme, slacks: readonly Column[], of: (row: number) => number | null): Linear => {
  const { columns, rows } = linearOf(programme);
  const firstLimit = programme.quantities.length;
  return {
    columns: [...columns.map((one) => ({ ...one, cost: 0 })), ...slacks],
    rows: rows.map((row, at) => {
      const by = at < firstLimit ? null : of(at - firstLimit);
      return by === null ? row : { ...row, terms: [...row.terms, [columns.length + by, -1] as const] };
    }),
  };
};

/** Which limits clash, and by how much. `null`: not even the limits of safety can be kept, whatever the others do. @throws SolverFailed */
export const clashOf = (programme: Programme, solve: Solver): Clash | null => {
  const { limits, quantities, mixtures } = programme;
  const layout = layoutOf(programme);
  const soft = limits.map(({ safety }) => !safety);
  const together = solve(elastic(programme, [slack(1)], (row) => (soft[row] === true ? 0 : null)));
  if (together.kind === 'infeasible') return null;
  const apart = solve(
    elastic(
      programme,
      limits.map(() => slack(1)),
      (row) => (soft[row] === true ? row : null),
    ),
  );
  if (apart.kind === 'infeasible') return null;
  const own = quantities.map((_, i) => apart.x[layout.own + i] ?? 0);
  const kept = mixtures.map((_, v) => apart.x[layout.kept + v] ?? 1);
  return {
    common: together.x.at(-1) ?? 0,
    weights: limits.map((_, row) => Math.max(0, 0 - (together.rows[quantities.length + row] ?? 0))),
    slacks: limits.map((_, row) => apart.x[layout.count + row] ?? 0),
    final: finalOf(programme, own, kept),
  };
};
