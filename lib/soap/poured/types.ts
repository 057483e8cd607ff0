import type { AlkaliPortion } from '../alkali';
import type { BatterParts } from '../batter';
import type { SvBelief } from '../superfat-interval';

/** A figure with its standard uncertainty and the interval that holds it 95 times in 100. All in one unit; shares as fractions. */
export interface Figured {
  readonly value: number;
  readonly u: number;
  readonly low: number;
  readonly high: number;
}

/** One doubt about a value: every portion of one lot shares it. `sv` in mg KOH/g, `purity` as a fraction. */
export type Belief = {
  readonly material: string;
  readonly name: string;
  /** Mark of the lot; `null` without one. */
  readonly lot: string | null;
  /** Working value. */
  readonly value: number;
} & (
  | { readonly of: 'sv'; readonly belief: SvBelief }
  | { readonly of: 'purity'; readonly belief: { readonly kind: 'certificate' | 'label'; readonly u: number } }
);

/** What one gram of a line is. Masses in grams; all parts together come to one. `belief` points into `Pot.beliefs`. */
export interface PotParts extends BatterParts {
  readonly fats: readonly (BatterParts['fats'][number] & { readonly belief: number })[];
  readonly alkalis: readonly (AlkaliPortion & { readonly belief: number })[];
}

export interface PotLine {
  readonly id: string;
  readonly name: string;
  readonly part: 'fat' | 'alkali' | 'liquid' | 'acid' | 'fragrance' | 'extra';
  /** Stands in the lye's jug before joining. */
  readonly inLye: boolean;
  readonly of: PotParts;
  /** Of a fragrance: most in the driest bar, as a fraction, from its certificate; `null` where nobody typed one. */
  readonly limit: number | null;
}

/** Moulds and what does not reach them. cm³ and grams. */
export interface PotSizing {
  /** °C the batter is poured at. */
  readonly pourAt: number;
  readonly residue: number;
  /** Fraction. */
  readonly pourLoss: number;
  /** Learnt from the maker's own batches; `null` before there are any. */
  readonly calibration: { readonly factor: number; readonly u: number } | null;
  /** All moulds to the brim; `null` without moulds. */
  readonly brim: { readonly value: number; readonly u: number } | null;
}

/** Bounds of the formula; `null` is no bound that anybody set. Fractions. */
export interface PotLimits {
  readonly superfat: readonly [low: number, high: number] | null;
  readonly lye: readonly [low: number, high: number] | null;
  /** By line id. */
  readonly shares: Readonly<Record<string, readonly [low: number, high: number]>>;
}

/** A batch as chemistry sees it, without its masses: fixed from its start, so that many hypothetical masses can be tried against it. */
export interface Pot {
  readonly lines: readonly PotLine[];
  readonly beliefs: readonly Belief[];
  /** `null`: no volume was asked of the plan. */
  readonly sizing: PotSizing | null;
  readonly limits: PotLimits;
}

/**
 * One independent cause by which masses are off, at one standard uncertainty. A reading that ends one weighing and begins the next stands
 * in both lines with opposite signs; a gain stands in all lines of its scale in proportion.
 * `reading`: one settled reading (resolution, repeatability). `tare`: the zero was the scale's own. `gain`: of one scale, `of` names it.
 * `typed`: by hand, of a scale nobody knows. `stated`: taken out, lost or left behind by a person's word. `to-come`: still to be weighed.
 */
export interface MassError {
  readonly cause: 'reading' | 'tare' | 'gain' | 'typed' | 'stated' | 'to-come';
  /** Instrument for `reading`, `tare` and `gain`; else the id of the line. */
  readonly of: string;
  readonly effect: readonly { readonly line: number; readonly grams: number }[];
  /** Of a gain: a known mass was put on that scale. */
  readonly checked?: boolean;
}

/** Grams of each line of a pot, in its order, and what they may be off by. */
export interface PotMasses {
  readonly grams: readonly number[];
  readonly errors: readonly MassError[];
}

/** Working values for some masses, nothing of their doubt: microseconds. `null` is not known, never a guess. Fractions, grams, cm³. */
export interface Outcome {
  /** `null` without fat. Below zero: lye-heavy. */
  readonly superfat: number | null;
  /** Pure alkali in the whole solution; `null` without lye. */
  readonly lye: number | null;
  /** Of the fats, of each line in the pot's order; 0 for what is no fat. */
  readonly shares: readonly number[];
  readonly fats: number;
  readonly batter: number;
  /** Fragrance ÷ fats. */
  readonly load: number | null;
  /** Σ cᵢ/Lᵢ in the driest bar; `null` where a limit is missing. */
  readonly fragrance: number | null;
  /** At pouring temperature; `null` where a density is not known. */
  readonly volume: number | null;
  /** What reaches the moulds ÷ their brim; `null` without moulds. */
  readonly full: number | null;
}

/** One cause of the superfat's width. */
export interface WidthPart {
  readonly what: 'sv' | 'purity' | MassError['cause'];
  /** Material of a value, instrument of a scale, else the line. */
  readonly of: string;
  readonly name: string;
  /** Fraction of u². */
  readonly share: number;
  /** Half-width of the interval from this cause alone, as a fraction of superfat. */
  readonly half: number;
}

/** What would narrow the superfat, by how much: half-widths as fractions. */
export interface Narrowing {
  readonly by: 'certificate' | 'check-scale' | 'weigh' | 'finer-scale';
  readonly of: string;
  readonly name: string;
  readonly from: number;
  readonly to: number;
}

export interface PouredSuperfat extends Figured {
  /** At the working values; `value` is at the means of what is believed, which a leaning triangle moves. */
  readonly working: number;
  /** Everything at the end of its published range that is worst, all at once; certificates and masses at ± 2 u. */
  readonly worst: { readonly low: number; readonly high: number };
  /** Chance that some alkali is left over. */
  readonly lyeHeavy: number;
  /** Largest first. */
  readonly parts: readonly WidthPart[];
  /** What helps most first; empty where nothing helps by a tenth. */
  readonly narrowing: readonly Narrowing[];
}

/** Everything of a pot with its doubt. `null` is not known. */
export interface PouredFigures {
  readonly superfat: PouredSuperfat | null;
  readonly lye: Figured | null;
  /** In the pot's order; `null` for what is no fat. */
  readonly shares: readonly (Figured | null)[];
  readonly load: Figured | null;
  readonly fragrance: Figured | null;
  /** Fragrances nobody typed a limit for. */
  readonly unlimited: readonly string[];
  readonly volume: Figured | null;
  /** Of the moulds' brim. */
  readonly full: Figured | null;
}
