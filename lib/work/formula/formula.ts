import type { MassUnit } from '#lib/units/mass';
import type { Pattern } from '../batch/pouring/types';
import type { Decimal } from './figure';

/**
 * A maker's formula: a versioned document, JSON of strings, whole numbers and booleans. Numbers stand as typed (`Decimal`), and may be
 * unfinished or wrong: the document keeps them, `planOf` says what is wrong with them. Nothing in it has a default that decides for the
 * maker; `null` is "not said yet".
 */
export interface Formula {
  readonly id: string;
  readonly name: string;
  /** From 1; a saved change is the next. */
  readonly version: number;
  readonly note: string;
  readonly entries: readonly Entry[];
  readonly blends: readonly Blend[];
  readonly wishes: Wishes;
  readonly size: Size | null;
  /** The moulds it is poured into: filled as wished when they set the size, else shown how full they get. */
  readonly moulds: readonly MouldUse[];
  /** What of the batter leaves the pot for jugs of its own; the rest stays plain. */
  readonly batterParts?: readonly BatterPart[];
  readonly limits: Limits;
  readonly temperatures: Temperatures | null;
  readonly references: readonly Reference[];
}

/** Which part an entry plays, whatever the material's kind: beeswax stands among the fats, a colour dispersed in oil is an extra. */
export type Part = 'fat' | 'alkali' | 'liquid' | 'acid' | 'fragrance' | 'extra';

export interface Entry {
  /** Stable within the formula; the plan's line carries it. */
  readonly id: string;
  readonly part: Part;
  /** Id of a material or of a preparation; `null` while not chosen. */
  readonly material: string | null;
  /** The lot whose certificate counts; `null`: catalogue values. */
  readonly lot: string | null;
  /** `null`: unfinished. */
  readonly amount: Amount | null;
  /** `share`: its share stays when others change. `mass`: its mass stays when the batch is scaled. */
  readonly lock: 'share' | 'mass' | null;
  /** A fat's share of all fats that a remedy may move it within, %. */
  readonly keep: Band | null;
  /** When it goes in. `lye`: into the liquid before the hydroxide. `aside`: waits in a cup. `trace`: weighed after joining. `null`: as usual. */
  readonly goes: 'oils' | 'lye' | 'aside' | 'trace' | null;
  /** A liquid weighed frozen. */
  readonly frozen: boolean;
  /** Id of the part of the batter that it goes into, at trace; not said: into all of it. Its amount is for that part as planned. */
  readonly intoPart?: string;
  /** By what its bottle loses, where that is heavy or hard to hold still; not said: into its vessel. */
  readonly weighed?: 'loss';
}

export interface Band {
  readonly low: Decimal;
  readonly high: Decimal;
}

/**
 * How much. A share is % by mass: of all fats (fats, acids, fragrances, extras), of the batter (fragrances, extras), of all liquid
 * (liquids), of a blend (fragrances of that blend); for an alkali, % of the hydroxide by moles.
 */
export type Amount =
  | { readonly kind: 'share'; readonly of: ShareOf; readonly percent: Decimal }
  | { readonly kind: 'mass'; readonly value: Decimal; readonly unit: MassUnit }
  /** Fluid measure; becomes a mass by the material's density at 20 °C. */
  | { readonly kind: 'volume'; readonly value: Decimal; readonly unit: VolumeUnit }
  /** What is left to 100 % of its part; of a liquid, whatever brings the lye to its concentration. One to a part. */
  | { readonly kind: 'rest' }
  /** "8 oz" of something that pours: weight or fluid, nobody has said. Kept, not reckoned. */
  | { readonly kind: 'ounces-unclear'; readonly value: Decimal }
  /** Spoons, drops, pinches: kept as written, not reckoned. */
  | { readonly kind: 'unweighed'; readonly text: string };

export type ShareOf = 'fats' | 'batter' | 'liquid' | 'hydroxide' | 'blend';
export type VolumeUnit = 'ml' | 'us-fl-oz' | 'imperial-fl-oz';

/** Fragrances that go in together: the amount of the whole; each of its entries has a share of the blend. */
export interface Blend {
  readonly id: string;
  readonly name: string;
  readonly amount: Amount | null;
  /** Ids of the entries. */
  readonly entries: readonly string[];
}

/** Asked of the maker once and remembered as theirs. Both `null` on a copied card, whose own lye and water say it. */
export interface Wishes {
  /** %. With every alkali given by mass it is a result, and this stays `null`. */
  readonly superfat: Decimal | null;
  /** Pure alkali in the whole solution, %; or water as a multiple of the pure alkali. With every liquid given by mass it is a result. */
  readonly lye: { readonly kind: 'concentration'; readonly percent: Decimal } | { readonly kind: 'ratio'; readonly water: Decimal } | null;
}

/** How large. `null` in a formula: its masses as typed. */
export type Size =
  | { readonly kind: 'fats'; readonly value: Decimal; readonly unit: MassUnit }
  | { readonly kind: 'batch'; readonly value: Decimal; readonly unit: MassUnit }
  /** Mass of one bar as poured; what stays in the pot comes on top. */
  | { readonly kind: 'bars'; readonly count: number; readonly value: Decimal; readonly unit: MassUnit }
  /** By `moulds`, each filled as it says. */
  | { readonly kind: 'moulds' };

export interface MouldUse {
  readonly mould: string;
  readonly count: number;
  /** % of its volume to fill. */
  readonly fill: Decimal;
  /** Not said: named at the bench before joining. */
  readonly pattern?: Pattern;
}

/** A part of the batter in a jug of its own. */
export interface BatterPart {
  readonly id: string;
  readonly name: string;
  /** % of the batter. */
  readonly percent: Decimal;
}

/** What a result must stay inside for an over-pour to be calm; `null`: the usual width about what was asked, marked as ours. */
export interface Limits {
  readonly superfat: Band | null;
  readonly lye: Band | null;
}

export interface Temperatures {
  /** °C, both vessels. */
  readonly window: Band;
  /** K. */
  readonly apart: Decimal;
  readonly apartLevel: 'hold' | 'advise';
  /** °C where this maker has seen the blend begin to set; `null`: not known, and not guessed from the fats' own ranges. */
  readonly setsAt: Decimal | null;
  /** °C above which the milk scorches; `null`: the usual one when a liquid scorches. */
  readonly milkLimit: Decimal | null;
  /** °C at which it is poured; `null`: middle of the window. */
  readonly pourAt: Decimal | null;
}

/** What a safety assessment or a notification allows; release compares it with what was poured. */
export interface Reference {
  readonly kind: 'safety-assessment' | 'notification';
  readonly number: string;
  /** "2026-02-03". */
  readonly date: string;
  /** % of the batter as poured, for one material. */
  readonly ranges: readonly { readonly material: string; readonly low: Decimal; readonly high: Decimal }[];
  /** SHA-256 of the document, where it is attached. */
  readonly file: string | null;
}
