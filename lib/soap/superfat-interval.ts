import { acidTake, type AcidPortion } from './acid';
import { hydroxide, molesOf, type AlkaliPortion } from './alkali';
import { amount, saponificationValue } from './check';
import { M_KOH } from './molar-mass';
import { leaningBelow } from './normal';
import type { FatPortion } from './fat-portion';
import { superfat } from './superfat';
import type { Estimate } from './source';
import { sumOf } from './sum';

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
  readonly uMass?: number;
}

export interface UncertainCharge {
  readonly fats: readonly UncertainFat[];
  readonly alkalis: readonly UncertainAlkali[];
  readonly acids: readonly AcidPortion[];
}

export interface SuperfatInterval {
  /** At the working values: the figure the plan aims at. */
  readonly working: number;
  /** At the means of what is believed; a triangle that leans moves it off `working`. */
  readonly expected: number;
  /** Standard uncertainty, GUM equation (10). */
  readonly u: number;
  /** `expected` ± 2 u, about 95 in 100. */
  readonly low: number;
  readonly high: number;
  /** Every fat and purity at the end of its range that is worst, all at once; certificates and masses at ± 2 u. */
  readonly worst: { readonly low: number; readonly high: number };
  /** Chance that some alkali is left over, by the beliefs above. */
  readonly lyeHeavy: number;
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

interface Spread {
  readonly mean: number;
  readonly variance: number;
  readonly third: number;
  readonly low: number;
  readonly high: number;
}

const symmetric = (mean: number, u: number): Spread => ({
  mean,
  variance: u * u,
  third: 0,
  low: mean - 2 * u,
  high: mean + 2 * u,
});

/** Moments of a triangle from a to b with its mode at c (GUM 4.3.9 gives the symmetric one). */
const triangle = (a: number, c: number, b: number): Spread => {
  if (!(a <= c && c <= b)) throw new RangeError('a working value lies inside its range');
  return {
    mean: (a + b + c) / 3,
    variance: (a * a + b * b + c * c - a * b - a * c - b * c) / 18,
    third: ((a + b - 2 * c) * (2 * a - b - c) * (a - 2 * b + c)) / 270,
    low: a,
    high: b,
  };
};

const svSpread = ({ sv, belief }: UncertainFat): Spread => {
  saponificationValue(sv);
  if (belief.kind !== 'range') return symmetric(sv, amount(belief.u, 'the uncertainty of a saponification value'));
  return triangle(saponificationValue(belief.low), sv, saponificationValue(belief.high));
};

/** A spread in moles of hydroxide, as it enters the balance. */
interface Term extends Spread, Omit<UncertaintyPart, 'share'> {}

const scaled = (spread: Spread, by: number): Spread => ({
  mean: spread.mean * by,
  variance: spread.variance * by * by,
  third: spread.third * by ** 3,
  low: spread.low * by,
  high: spread.high * by,
});

const termsOf = ({ fats, alkalis }: UncertainCharge): readonly Term[] => [
  ...fats.flatMap((fat, of): Term[] => {
    const spread = scaled(svSpread(fat), fat.mass / (1000 * M_KOH));
    const perGram = spread.mean / (fat.mass || 1);
    const mass = symmetric(0, perGram * amount(fat.uMass ?? 0, 'the uncertainty of a mass'));
    return [
      { ...spread, what: 'sv', of, side: 'fats' },
      { ...mass, what: 'mass', of, side: 'fats' },
    ];
  }),
  ...alkalis.flatMap((alkali, of): Term[] => {
    const { molarMass } = hydroxide(alkali.kind);
    const pure = symmetric(molesOf(alkali), (alkali.mass * amount(alkali.uPurity, 'the uncertainty of a purity')) / molarMass);
    // Nothing is purer than pure.
    const purest = alkali.mass / molarMass;
    const mass = symmetric(0, (alkali.purity * amount(alkali.uMass ?? 0, 'the uncertainty of a mass')) / molarMass);
    return [
      { ...pure, high: Math.min(pure.high, purest), what: 'purity', of, side: 'alkalis' },
      { ...mass, what: 'mass', of, side: 'alkalis' },
    ];
  }),
];

/**
 * How far superfat can be believed, first order (GUM), with every input independent of every other: a certificate shared by two
 * portions of one lot is one portion here, so add such portions up first. A gain error common to all weights of one scale cancels in superfat
 * and is rightly absent; that of a second scale belongs in the `uMass` of what it weighed. Lines weighed one upon another without tare
 * correlate by −0.5 with their neighbours, which narrows the sum: left out, on the safe side. Acids by stoichiometry, without uncertainty.
 * The chance of being lye-heavy is that of fat demand falling short of the alkali, a plain sum, with its skewness.
 */
export const superfatInterval = (charge: UncertainCharge): SuperfatInterval => {
  const working = superfat(charge);
  const acid = acidTake(charge.acids);
  const terms = termsOf(charge);
  const total = (side: Term['side'], of: (term: Term) => number): number => sumOf(terms, (t) => (t.side === side ? of(t) : 0));
  const demand = total('fats', (t) => t.mean);
  const net = total('alkalis', (t) => t.mean) - acid;
  // d(superfat) is net/demand² for a mole of demand and −1/demand for a mole of alkali.
  const weight = (side: Term['side']): number => (side === 'fats' ? net / demand ** 2 : 1 / demand);
  const parts = terms.map((t) => ({ what: t.what, of: t.of, side: t.side, part: t.variance * weight(t.side) ** 2 }));
  const u2 = sumOf(parts, (p) => p.part);
  const u = Math.sqrt(u2);
  const expected = 1 - net / demand;
  return {
    working,
    expected,
    u,
    low: expected - 2 * u,
    high: expected + 2 * u,
    worst: {
      low: 1 - (total('alkalis', (t) => t.high) - acid) / total('fats', (t) => t.low),
      high: 1 - (total('alkalis', (t) => t.low) - acid) / total('fats', (t) => t.high),
    },
    lyeHeavy: shortfall(terms, demand - net),
    parts: parts
      .filter((p) => p.part > 0)
      .map(({ what, of, side, part }) => ({ what, of, side, share: part / u2 }))
      .toSorted((a, b) => b.share - a.share),
  };
};

/** Chance that demand less alkali is below zero. */
const shortfall = (terms: readonly Term[], spare: number): number => {
  const sign = (t: Term): number => (t.side === 'fats' ? 1 : -1);
  const variance = sumOf(terms, (t) => t.variance);
  if (variance === 0) return spare < 0 ? 1 : 0;
  const third = sumOf(terms, (t) => sign(t) * t.third);
  return leaningBelow(-spare / Math.sqrt(variance), third / variance ** 1.5);
};
