import type { FigureGrade } from './figure';

/** What a maker should know before weighing. Each says what and by how much; words are the screen's. */
export type WarningCode =
  /** Lye would set or leave hydroxide undissolved at the coldest. params: celsius, phase */
  | 'crystallises'
  | 'solubility-unknown'
  /** Outside 25–40 %. params: percent, low, high */
  | 'lye-strength-unusual'
  /** Heat of dissolving not known above 42.5 % NaOH: nothing says what the jug must stand. params: percent */
  | 'heat-unknown'
  /** A stock lye warms on dilution by an amount not reckoned. */
  | 'dilution-heat-unknown'
  /** params: peak, rating (°C), vessel */
  | 'peak-over-rating'
  | 'rating-unknown'
  /** Lye may boil. params: peak */
  | 'lye-boils'
  /** Interval reaches below zero, or the superfat itself does. params: low (%), chance */
  | 'lye-heavy'
  | 'lye-heavy-possible'
  /** params: percent */
  | 'superfat-high'
  | 'likely-to-separate'
  | 'likely-to-crack'
  /** Sugar, milk or honey, or a large log, heat it. params: percent */
  | 'likely-to-overheat'
  /** params: iodine, polyunsaturated (%) */
  | 'early-rancidity'
  | 'soft-at-unmoulding'
  | 'false-trace'
  /** Milk limit: params: celsius */
  | 'milk-scorches'
  /** params: line, scale, smallest (mg), couldServe */
  | 'scale-cannot-serve'
  | 'scale-never-checked'
  | 'capacity-exceeded'
  | 'no-scale'
  /** Several weighings. params: line, pours */
  | 'part-pours'
  /** No scale bears its vessel with all that goes in: its bottle stands on the scale instead. params: line, vessel */
  | 'weighed-by-loss'
  /** params: sum, most */
  | 'over-fragrance-limit'
  | 'fragrance-limit-unknown'
  /** params: vanillin (%) */
  | 'browning'
  /** params: mould, percent */
  | 'mould-overfull'
  | 'mould-may-overfill'
  | 'mould-underfull'
  | 'volume-unknown'
  | 'vessel-too-small'
  | 'vessel-unknown'
  | 'vessel-glass'
  | 'vessel-eaten'
  /** Spoons and the like, left out of everything. params: text */
  | 'unweighed'
  /** A value that rests on memory. params: material, what */
  | 'from-memory'
  /** A certificate outside a range that is no standard's. params: value, low, high */
  | 'certificate-unusual'
  | 'certificate-in-range'
  /** Outside the standard's range, and confirmed by a person. params: value, low, high */
  | 'certificate-confirmed-outside'
  /** Ingredient outside what its assessment or notification allows. params: material, percent, low, high, number */
  | 'outside-reference'
  /** A mass that does not grow with the batch. */
  | 'mass-not-scaled'
  | 'looks-alike';

/** `must` stops the batch, `mind` asks for a decision, `note` informs. */
export type WarningLevel = 'must' | 'mind' | 'note';

export interface Warning {
  readonly code: WarningCode;
  readonly level: WarningLevel;
  /** The entry it is about; `null` for the whole. */
  readonly entry: string | null;
  readonly params: Readonly<Record<string, string | number>>;
  /** Why: a rule and what it rests on. */
  readonly because: { readonly text: string; readonly grade: FigureGrade };
  /** Id of the derivation that shows its numbers; `null` without one. */
  readonly derivation: string | null;
}
