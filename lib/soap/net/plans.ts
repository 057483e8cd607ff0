import type { Source } from '../source';

/** How many bars of a lot are weighed for a check of the average system, and what they must show. */
export interface AveragePlan {
  /** `null`: every bar. */
  readonly contents: { readonly sample: number; readonly accept: number } | null;
  readonly mean: { readonly sample: number; readonly factor: number } | null;
}

const SI_3: Source = { text: 'UK SI 2006/659 Sch. 2 para 3 (single sampling, non-destructive)', grade: 'A' };
const SI_4: Source = { text: 'UK SI 2006/659 Sch. 2 para 4 (= 76/211/EEC Annex II, 2.3)', grade: 'A' };
const SI_WHOLE: Source = { text: 'UK SI 2006/659 Sch. 2 paras 3.6 and 4.7', grade: 'A' };

export const CONTENTS_SOURCE = SI_3;
export const MEAN_SOURCE = SI_4;
export const WHOLE_SOURCE = SI_WHOLE;

/** From this many bars a lot may be sampled. */
export const SAMPLED_FROM = 100;

/** Defectives that a lot under 100 may have: 5 in 100 of it. */
export const WHOLE_LOT_SHARE = 0.05;
/** Packers' guidance of the UK for the same: 2.5 in 100. */
export const GUIDANCE_SHARE = 0.025;
export const GUIDANCE_SOURCE: Source = { text: 'UK average-quantity guidance, packers’ rules', grade: 'A' };

/** The plan of a lot. @throws RangeError for a lot that is no whole number above zero */
export const averagePlan = (lot: number): AveragePlan => {
  if (!(Number.isInteger(lot) && lot > 0)) throw new RangeError('a lot has a whole number of bars');
  if (lot < SAMPLED_FROM) return { contents: null, mean: null };
  const mean = lot <= 500 ? { sample: 30, factor: 0.503 } : { sample: 50, factor: 0.379 };
  if (lot <= 500) return { contents: { sample: 50, accept: 3 }, mean };
  if (lot <= 3200) return { contents: { sample: 80, accept: 5 }, mean };
  return { contents: { sample: 125, accept: 7 }, mean };
};

const HB_2_1: Source = { text: 'NIST Handbook 133, Table 2-1, category A', grade: 'memory' };
export const HANDBOOK_SOURCE = HB_2_1;

/** Sample correction factor by number of packages. Student's t at 0.975 over √n; at 48 the table is remembered as 0.291, t gives 0.290. */
const CORRECTION: Readonly<Record<number, number>> = {
  2: 8.985,
  3: 2.484,
  4: 1.591,
  5: 1.242,
  6: 1.05,
  7: 0.925,
  8: 0.836,
  9: 0.769,
  10: 0.715,
  11: 0.672,
  12: 0.635,
  24: 0.422,
  48: 0.291,
};

export interface HandbookPlan {
  readonly sample: number;
  /** `null` for a single package, which has no spread to correct for. */
  readonly factor: number | null;
}

/** @throws RangeError for a lot that is no whole number above zero */
export const handbookPlan = (lot: number): HandbookPlan => {
  if (!(Number.isInteger(lot) && lot > 0)) throw new RangeError('a lot has a whole number of bars');
  const sample = lot <= 11 ? lot : lot <= 250 ? 12 : lot <= 3200 ? 24 : 48;
  return { sample, factor: CORRECTION[sample] ?? null };
};

/** Maximum allowable variation in grams, by label weight: up to 36 g a tenth of it, then by steps of 0.004 lb. */
const VARIATIONS: readonly (readonly [to: number, grams: number])[] = [
  [54, 3.6],
  [81, 5.4],
  [117, 7.2],
  [154, 9],
  [208, 10.8],
  [263, 12.7],
  [317, 14.5],
  [381, 16.3],
  [426, 18.1],
];
const SMALL = { to: 36, share: 0.1 } as const;
export const VARIATION_SOURCE: Source = {
  text: 'NIST Handbook 133, Appendix A, Table 2-5; look it up before you rely on it',
  grade: 'memory',
};

/** `null` above 426 g, where the table is not remembered. @throws RangeError for a label weight that is none */
export const allowableVariation = (label: number): number | null => {
  if (!(label > 0 && Number.isFinite(label))) throw new RangeError('a label weight is above zero');
  if (label <= SMALL.to) return SMALL.share * label;
  return VARIATIONS.find(([to]) => label <= to)?.[1] ?? null;
};
