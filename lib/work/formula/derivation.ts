import type { FigureGrade } from './figure';

/** How one figure came about, as data: what a slip under the figure shows. */
export interface Derivation {
  /** "superfat", "lye-concentration", "line:soda", "mould:loaf", … */
  readonly id: string;
  readonly value: number;
  readonly unit: string;
  /** In symbols: "s = 1 − (alkali − acid demand) ÷ fat demand". */
  readonly formula: string;
  /** The same with numbers filled in: "1 − (3.5523 − 0) ÷ 3.7390 mol". */
  readonly filled: string;
  readonly inputs: readonly DerivedFrom[];
  /** Standard uncertainty in `unit`; `null` where none is reckoned. */
  readonly u: number | null;
  /** What the uncertainty is made of, largest first: fraction of u². */
  readonly parts: readonly { readonly what: string; readonly share: number }[];
}

export interface DerivedFrom {
  readonly name: string;
  readonly value: number;
  readonly low?: number;
  readonly high?: number;
  readonly unit: string;
  readonly source: string;
  readonly grade: FigureGrade;
  /** Another derivation this input is the result of. */
  readonly derivation?: string;
}
