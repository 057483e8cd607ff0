/** Why no plan can be computed yet. `planOf` and the checks return them; none is thrown. Words are the screen's. */
export type ProblemCode =
  /** Nothing there yet: the field is asked for. */
  | 'missing'
  /** Text where a number belongs. params: text */
  | 'not-a-number'
  /** A mark that groups to one person and parts to the next. params: one, other */
  | 'which-number'
  /** A number, but zero or below where it must be above. params: value */
  | 'not-above-zero'
  | 'negative'
  /** Above what can be meant. params: value, most */
  | 'too-large'
  /** Outside what it can be. params: value, low, high */
  | 'out-of-range'
  /** low above high. params: low, high */
  | 'band-upside-down'
  | 'not-whole'
  | 'unknown-unit'
  | 'unknown-material'
  | 'unknown-lot'
  /** The lot is of another material. params: lot, material */
  | 'lot-of-another'
  | 'unknown-mould'
  | 'unknown-blend'
  /** It goes into a part of the batter that there is not, or only once it is in the pot already. params: material */
  | 'unknown-part'
  /** Two of one id. params: id */
  | 'twice'
  /** The material cannot play this part. params: kind, part */
  | 'wrong-part'
  /** Dry hydroxide weighed by what its bottle loses. params: material */
  | 'alkali-by-loss'
  /** A share of something this part is not reckoned by. params: of, part */
  | 'wrong-share'
  /** Shares that do not come to 100 %, or that leave no room for the weights `beside` them. params: sum, part, beside */
  | 'shares-sum'
  /** More than one "what is left". params: part */
  | 'two-rests'
  /** Spoons of what takes or gives alkali, or makes the lye: nothing can be said of the soap. params: material */
  | 'unweighed-counts'
  /** Weight or fluid: nobody has said. */
  | 'ounces-unclear'
  /** Locked masses and shares leave no room. params: locked, total, unit */
  | 'locks-clash'
  /** Locked masses allow no batch of the size asked for. params: locked (g) */
  | 'locks-size'
  /** A formula in shares alone has no size. */
  | 'no-size'
  | 'no-fat'
  | 'no-alkali'
  | 'no-liquid'
  /** Superfat or concentration not asked for yet, and not given by masses either. */
  | 'superfat-not-said'
  | 'lye-not-said'
  /** A stock lye with no liquid beside it is as strong as it is: no other strength can be wished. */
  | 'stock-lye-strength'
  /** Both wished and fixed by masses. */
  | 'said-twice'
  /** The masses of alkali given are already more than the superfat allows. params: over (g) */
  | 'alkali-too-much'
  /** The lye as given is weaker than wished. params: most (%), dissolved (g, of extras that go into it) */
  | 'lye-too-weak'
  /** Purity or strength is not on the material nor on the lot. params: material */
  | 'purity-missing'
  | 'strength-missing'
  /** More than 50 % of hydroxide in hydroxide and water: beyond every table here. params: percent */
  | 'lye-too-strong'
  /** A preparation that holds itself. params: chain */
  | 'cycle'
  /** A certificate outside what the standard allows, and nobody has confirmed that it stands so on the paper. params: value, low, high */
  | 'certificate-outside'
  /** The moulds cannot be sized. */
  | 'mould-unknown-volume'
  /** More than a workshop of this kind can mean. params: grams */
  | 'batch-too-large'
  /** A line whose mass rounds to nothing. params: grams */
  | 'too-small'
  /** A formula no computation accepts for a reason not foreseen; the reason's own words. params: words */
  | 'not-computable'
  /** An import file. params: line, column, words, of */
  | 'not-json'
  | 'wrong-shape'
  | 'other-format'
  /** A file of formulas of a later version of this program. params: version */
  | 'other-version';

export interface Problem {
  readonly code: ProblemCode;
  /** Where: "entries[2].amount.percent", "wishes.superfat", "lots[lot-7].certificate.sv", "moulds[loaf].shape.depth". */
  readonly path: string;
  readonly params: Readonly<Record<string, string | number>>;
}

export const problem = (code: ProblemCode, path: string, params: Problem['params'] = {}): Problem => ({ code, path, params });
