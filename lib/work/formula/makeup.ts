import type { AcidPortion } from '#lib/soap/acid';
import type { Profile } from '#lib/soap/fatty-acid';
import type { Estimate } from '#lib/soap/source';
import type { UncertainAlkali, UncertainFat } from '#lib/soap/superfat-interval';
import type { KnownDensity } from '#lib/soap/volume';
import type { Figure } from './figure';

/** Where a part of a line came from, for sources and for the record. */
export interface Origin {
  readonly material: string;
  readonly name: string;
  readonly lot: string | null;
}

export interface FatIn extends UncertainFat, Origin {
  readonly density: KnownDensity;
  /** `null` where not known. */
  readonly profile: Profile | null;
  readonly iodine: number | null;
  /** °C; `null` where liquid in any workshop. */
  readonly melting: { readonly low: number; readonly high: number } | null;
}

export interface AlkaliIn extends UncertainAlkali, Origin {
  readonly purityKind: 'certificate' | 'label';
  /** Already dissolved: a stock lye. */
  readonly dissolved: boolean;
}

/** What takes no part: sugar, milk solids, clay, fragrance. */
export interface InertIn extends Origin {
  readonly mass: number;
  readonly density: Estimate;
  readonly what: 'sugar' | 'solids' | 'additive' | 'colourant' | 'fragrance';
}

/**
 * What some mass of a material is to the chemistry. Masses in grams; all parts together come to the mass. Of a preparation, what it is
 * made of.
 */
export interface Makeup {
  readonly fats: readonly FatIn[];
  readonly alkalis: readonly AlkaliIn[];
  readonly acids: readonly AcidPortion[];
  /** Beyond what alkalis and acids bring with them. */
  readonly water: number;
  readonly inert: readonly InertIn[];
  /** Every figure used, for the basis and the derivations. */
  readonly values: readonly UsedValue[];
}

export interface UsedValue extends Origin {
  readonly what: string;
  readonly figure: Figure;
}

export const EMPTY: Makeup = { fats: [], alkalis: [], acids: [], water: 0, inert: [], values: [] };

const times = <T extends { readonly mass: number }>(parts: readonly T[], by: number): readonly T[] =>
  parts.map((part) => ({ ...part, mass: part.mass * by }));

/** So many times of it all. */
export const scaled = (makeup: Makeup, by: number): Makeup => ({
  ...makeup,
  fats: times(makeup.fats, by),
  alkalis: times(makeup.alkalis, by),
  acids: times(makeup.acids, by),
  water: makeup.water * by,
  inert: times(makeup.inert, by),
});

/** Everything of several together, in their order. */
export const together = (all: readonly Makeup[]): Makeup => ({
  fats: all.flatMap((one) => one.fats),
  alkalis: all.flatMap((one) => one.alkalis),
  acids: all.flatMap((one) => one.acids),
  water: all.reduce((sum, one) => sum + one.water, 0),
  inert: all.flatMap((one) => one.inert),
  values: all.flatMap((one) => one.values),
});
