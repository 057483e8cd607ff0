import { acidTake, type AcidPortion } from './acid';
import { hydroxide, molesOf, type AlkaliPortion } from './alkali';
import { amount, saponificationValue } from './check';
import { flat, normal, triangle, type Doubt } from './doubt';
import { M_KOH } from './molar-mass';
import type { FatPortion } from './fat-portion';
import { superfat } from './superfat';
import { spreadOf, type Cause, type Spread } from './superfat-spread';
import type { Estimate } from './source';
import { sumOf } from '#lib/units/sum';

/**
 * What is believed of a fat's saponification value.
 * `certificate`: a titration of this lot, with its method's standard uncertainty. `profile`: worked out from this lot's fatty acids.
 * `range`: only what a standard allows; a triangle from low to high with its mode at the working value, for a flat range calls a palm
 * kernel oil used at 247 lye-heavy one time in five.
 */
export type SvBelief =
  | { readonly kind: 'certificate' | 'profile'; readonly u: number }
  | { readonly kind: 'range'; readonly low: number; readonly high: number };

/** ISO 3657, from memory: two laboratories differ by less than 1.4 % of the value 95 times in 100, which is 2.8 standard uncertainties. */
const TITRATION = 0.014 / 2.8;
/** Fatty acids say nothing of free acids, partial glycerides and what takes no alkali: a judgement. */
const PROFILE = 0.01;

/** Standard uncertainty of a saponification value by how it was found, where the certificate does not state one; mg KOH/g. */
export const methodUncertainty = (kind: 'certificate' | 'profile', sv: number): Estimate => ({
  value: saponificationValue(sv),
  u: sv * (kind === 'certificate' ? TITRATION : PROFILE),
  source:
    kind === 'certificate'
      ? { text: 'ISO 3657, reproducibility', grade: 'memory' }
      : { text: 'what fatty acids leave out, a judgement', grade: 'practice' },
});

export interface UncertainFat extends FatPortion {
  readonly belief: SvBelief;
  /** Standard uncertainty of the mass, grams; 0 if not said. */
  readonly uMass?: number;
}

export interface UncertainAlkali extends AlkaliPortion {
  /** Standard uncertainty of the purity, as a fraction. */
  readonly uPurity: number;
  /** `label`: anywhere in a width. A certificate's if not said. */
  readonly purityKind?: 'certificate' | 'label';
  readonly uMass?: number;
}

export interface UncertainCharge {
  readonly fats: readonly UncertainFat[];
  readonly alkalis: readonly UncertainAlkali[];
  readonly acids: readonly AcidPortion[];
}

/** `expected`: at the means of what is believed. `worst`: ranges at their ends, certificates and masses at ± 2 u. */
export interface SuperfatInterval extends Omit<Spread, 'shares'> {
  /** At the working values: the figure the plan aims at; a triangle that leans moves `expected` off it. */
  readonly working: number;
  /** Each input's part of u², largest first, for whoever asks what would help. */
  readonly parts: readonly UncertaintyPart[];
}

export interface UncertaintyPart {
  readonly what: 'sv' | 'purity' | 'mass';
  readonly side: 'fats' | 'alkalis';
  /** Index into that side's portions. */
  readonly of: number;
  /** Fraction of u². */
  readonly share: number;
}

/** A saponification value as it is believed, mg KOH/g. */
export const svDoubt = (sv: number, belief: SvBelief): Doubt => {
  saponificationValue(sv);
  if (belief.kind !== 'range') return normal(sv, amount(belief.u, 'the uncertainty of a saponification value'));
  return triangle(saponificationValue(belief.low), sv, saponificationValue(belief.high));
};

/** A purity as it is believed, as a fraction: a certificate's is normal, a label's anywhere in its width. Nothing is purer than pure. */
export const purityDoubt = (purity: number, u: number, kind: 'certificate' | 'label' = 'certificate'): Doubt => {
  const doubt =
    kind === 'label'
      ? flat(purity, Math.sqrt(3) * amount(u, 'the uncertainty of a purity'))
      : normal(purity, amount(u, 'the uncertainty of a purity'));
  return u === 0 ? doubt : { ...doubt, ends: [doubt.ends[0], Math.min(doubt.ends[1], (1 - purity) / u)] };
};

interface Term extends Cause, Omit<UncertaintyPart, 'share'> {
  /** Moles at its mean. */
  readonly mean: number;
}

const termsOf = ({ fats, alkalis }: UncertainCharge): readonly Term[] => [
  ...fats.flatMap((fat, of): Term[] => {
    const moles = fat.mass / (1000 * M_KOH);
    const { mean, u, shape, ends } = svDoubt(fat.sv, fat.belief);
    const perGram = mean / (1000 * M_KOH);
    const mass = normal(0, amount(fat.uMass ?? 0, 'the uncertainty of a mass'));
    return [
      { what: 'sv', side: 'fats', of, mean: mean * moles, demand: u * moles, supply: 0, shape, ends },
      { what: 'mass', side: 'fats', of, mean: 0, demand: mass.u * perGram, supply: 0, shape: mass.shape, ends: mass.ends },
    ];
  }),
  ...alkalis.flatMap((alkali, of): Term[] => {
    const { molarMass } = hydroxide(alkali.kind);
    const { u, shape, ends } = purityDoubt(alkali.purity, alkali.uPurity, alkali.purityKind);
    const mass = normal(0, amount(alkali.uMass ?? 0, 'the uncertainty of a mass'));
    const perGram = alkali.purity / molarMass;
    return [
      { what: 'purity', side: 'alkalis', of, mean: molesOf(alkali), demand: 0, supply: (u * alkali.mass) / molarMass, shape, ends },
      { what: 'mass', side: 'alkalis', of, mean: 0, demand: 0, supply: mass.u * perGram, shape: mass.shape, ends: mass.ends },
    ];
  }),
];

/**
 * How far superfat can be believed before anything is weighed, with every input independent of every other: a certificate shared by two
 * portions of one lot is one portion here, so add such portions up first. What was weighed goes by `lib/soap/poured`, which knows which
 * readings two lines share. Acids by stoichiometry, without uncertainty.
 */
export const superfatInterval = (charge: UncertainCharge): SuperfatInterval => {
  const working = superfat(charge);
  const terms = termsOf(charge);
  const total = (side: Term['side']): number => sumOf(terms, (t) => (t.side === side ? t.mean : 0));
  const { shares, ...spread } = spreadOf({ demand: total('fats'), net: total('alkalis') - acidTake(charge.acids) }, terms);
  return {
    working,
    ...spread,
    parts: terms
      .map(({ what, of, side }, at) => ({ what, of, side, share: shares[at] ?? 0 }))
      .filter(({ share }) => share > 0)
      .toSorted((a, b) => b.share - a.share),
  };
};
