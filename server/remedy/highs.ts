import loadHighs from 'highs';
import { SolverFailed } from '#lib/soap/remedy/solver';
import type { Linear, Solved, Solver } from '#lib/soap/remedy/solver';

type Highs = Awaited<ReturnType<typeof loadHighs>>;
type Model = ReturnType<Highs['createModel']>;

interface SolverLimits {
  /** Longest one programme may take, seconds. */
  readonly seconds: number;
}

/** Loads the WebAssembly (3.5 MB) and returns what solves with it. The programme goes over as arrays: text that is wrong would come back as empty. */
export const loadSolver = async ({ seconds }: SolverLimits): Promise<Solver> => {
  const highs = await loadHighs();
  // One instance for all continuous programmes: to set up a new one takes longer than to solve. They are too small to be presolved.
  const kept = highs.createModel();
  kept.options.set({ ...OPTIONS, presolve: 'off', time_limit: seconds });
  return (linear) => {
    if (linear.columns.some(({ integer }) => integer)) {
      return highs.withModel((model) => {
        model.options.set({ ...OPTIONS, time_limit: seconds });
        return solve(highs, model, linear);
      });
    }
    kept.clearModel();
    kept.zeroAllClocks();
    return solve(highs, kept, linear);
  };
};

const OPTIONS = {
  output_flag: false,
  random_seed: 1,
  primal_feasibility_tolerance: 1e-9,
  dual_feasibility_tolerance: 1e-9,
  mip_feasibility_tolerance: 1e-9,
  mip_rel_gap: 0,
  mip_abs_gap: 0,
} as const;

const solve = (highs: Highs, model: Model, { columns, rows }: Linear): Solved => {
  const { variableType, modelStatus } = highs.constants;
  const integer = columns.some((one) => one.integer);
  const starts = [0];
  for (const { terms } of rows) starts.push((starts.at(-1) ?? 0) + terms.length);
  model.passModel({
    numCols: columns.length,
    numRows: rows.length,
    colCost: columns.map(({ cost }) => cost),
    colLower: columns.map(({ lower }) => lower),
    colUpper: columns.map(({ upper }) => upper),
    rowLower: rows.map(({ lower }) => lower),
    rowUpper: rows.map(({ upper }) => upper),
    matrix: {
      format: 'csr',
      numRows: rows.length,
      numCols: columns.length,
      starts,
      indices: rows.flatMap(({ terms }) => terms.map(([column]) => column)),
      values: rows.flatMap(({ terms }) => terms.map(([, value]) => value)),
    },
    ...(integer ? { integrality: columns.map((one) => (one.integer ? variableType.integer : variableType.continuous)) } : {}),
  });
  model.run();
  const status = model.getModelStatus();
  if (status === modelStatus.infeasible) return { kind: 'infeasible' };
  if (status !== modelStatus.optimal) throw new SolverFailed(`no optimum: status ${status}`);
  const { colValue, rowDual, colDual } = model.getSolution();
  return { kind: 'optimal', objective: model.getObjectiveValue(), x: [...colValue], rows: [...rowDual], columns: [...colDual] };
};
