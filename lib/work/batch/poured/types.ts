import type { InstrumentId, LineId } from '#lib/units/id';
import type { Milligrams } from '#lib/units/mass';
import type { Figured, Pot, PotMasses, PouredFigures, PouredSuperfat } from '#lib/soap/poured/types';

/**
 * What the pot is, from what was weighed; what is still to come counts at plan.
 *
 *   potOf(state)            the pot as the plan froze it, in the order of `state.order`; pure chemistry, without masses
 *   asPoured(state, live)   with its masses and every reading they rest on: figures with u and interval, or why there are none
 *
 * For hypothetical masses (a remedy): `outcomeAt(pot, grams)` of `lib/soap/poured` gives the working values in microseconds, and
 * `perGramOf` the coefficients of each line; `figuresOf(pot, masses)` the intervals, once for each card.
 */
export type PotRead = { readonly kind: 'pot'; readonly pot: Pot } | Unworked;

/**
 * Why nothing is worked out. `typed-plan`: its numbers were typed, not computed. `not-frozen`: started by an older program, which kept
 * too little. `unknown-line`: nobody knows what one is made of: it came later, or
 * is of another lot than its certificate.
 */
export interface Unworked {
  readonly kind: 'typed-plan' | 'not-frozen' | 'unknown-line';
  readonly line: LineId | null;
}

/** A pour under way: what the scale shows of the open line now, beyond what is accepted of it. */
export interface LivePour {
  readonly line: LineId;
  readonly net: Milligrams;
  readonly instrument: InstrumentId;
  readonly step: Milligrams;
}

export interface AsPoured extends PouredFigures {
  readonly kind: 'figures';
  /** Of the computation: "potwatch as poured 1". */
  readonly method: string;
  readonly pot: Pot;
  readonly masses: PotMasses;
  /** Lines that count at plan because they are not weighed yet. */
  readonly toCome: readonly LineId[];
  /** `null` where nobody set a limit. */
  readonly limits: readonly LimitCheck[];
}

/** A result beside the formula's limit. `check`: the value is inside, its interval is not. */
export interface LimitCheck {
  readonly what: 'superfat' | 'lye' | 'share' | 'fragrance' | 'full';
  readonly line: LineId | null;
  readonly figure: Figured;
  readonly low: number | null;
  readonly high: number | null;
  readonly verdict: 'inside' | 'check' | 'outside';
}

export type PouredAnswer = AsPoured | Unworked;

/** By the superfat alone: `heavy` s < 0, never accepted; `may-be-heavy` s − 2u < 0, only with a person's acknowledgement. */
export type LyeVerdict = 'heavy' | 'may-be-heavy' | 'fine';

export type { Figured, Pot, PotMasses, PouredFigures, PouredSuperfat };
