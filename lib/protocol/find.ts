/** What went otherwise than planned, as a list can be narrowed to it. `any`: whatever of them. */
export const DEVIATIONS = ['over-pour', 'override', 'by-hand', 'stated'] as const;
export type Deviation = (typeof DEVIATIONS)[number];

/** Which batches are asked for; what is left out narrows nothing. */
export interface BatchFind {
  /** Words or beginnings of words, all of which must stand in mark, formula, materials, lots or notes. */
  readonly words?: string | undefined;
  /** Begun from here on, wall time in ms. */
  readonly from?: number | undefined;
  /** Begun before here, wall time in ms. */
  readonly to?: number | undefined;
  /** The formula's name as it stands in the list. */
  readonly formula?: string | undefined;
  readonly deviation?: Deviation | 'any' | undefined;
}

/** The longest search anybody means. */
export const LONGEST_SEARCH = 120;

/** GET /api/batches/formulas: names a batch was ever begun with. */
export interface FormulaNames {
  readonly formulas: readonly string[];
}
