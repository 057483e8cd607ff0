/** A linear or integer programme as arrays: minimise cost × x, rowLower ≤ A x ≤ rowUpper, lower ≤ x ≤ upper. Infinities are JavaScript's. */
export interface Linear {
  readonly columns: readonly Column[];
  readonly rows: readonly Row[];
}

export interface Column {
  readonly cost: number;
  readonly lower: number;
  readonly upper: number;
  readonly integer: boolean;
}

export interface Row {
  readonly lower: number;
  readonly upper: number;
  /** Column and coefficient; a column at most once. */
  readonly terms: readonly (readonly [column: number, coefficient: number])[];
}

/** Multipliers are of the continuous programme only: `rows` and `columns` are d(objective)/d(bound). */
export type Solved =
  | {
      readonly kind: 'optimal';
      readonly objective: number;
      readonly x: readonly number[];
      readonly rows: readonly number[];
      readonly columns: readonly number[];
    }
  | { readonly kind: 'infeasible' };

/** @throws SolverFailed when it has no answer: out of time, or a programme that is none. Never returns a guess. */
export type Solver = (linear: Linear) => Solved;

export class SolverFailed extends Error {
  constructor(why: string) {
    super(why);
    this.name = 'SolverFailed';
  }
}
