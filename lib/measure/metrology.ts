/**
 * What a scale can tell apart, and what the standards allow it to err. Masses in any one unit, the same throughout.
 *
 * A kitchen scale without a class mark has no class of OIML R 76: its figures are for comparison, never a claim.
 */
export type ScaleClass = 'I' | 'II' | 'III' | 'IIII';

/** OIML R 76-1:2006, Table 6: up to so many divisions the error on initial verification is 0.5, then 1, then 1.5 of one. */
const BANDS: Readonly<Record<ScaleClass, readonly [half: number, one: number]>> = {
  I: [50_000, 200_000],
  II: [5_000, 20_000],
  III: [500, 2_000],
  IIII: [50, 200],
};

/** In service twice the error on verification (UK SI 1995/1907 Sch. 2, 4.2; OIML R 76-1, 3.5.2). */
const IN_SERVICE = 2;

/**
 * Maximum permissible error of a load, plus or minus, in the unit of `e`.
 * @param load net or gross, zero or more; `e` the verification interval
 * @throws RangeError for a load below zero or an interval not above it
 */
export const permissibleError = (
  scaleClass: ScaleClass,
  load: number,
  e: number,
  when: 'verification' | 'service' = 'verification',
): number => {
  if (!(load >= 0 && Number.isFinite(load))) throw new RangeError('a load is zero or more');
  if (!(e > 0 && Number.isFinite(e))) throw new RangeError('a verification interval is above zero');
  const [half, one] = BANDS[scaleClass];
  const intervals = load / e;
  const times = intervals <= half ? 0.5 : intervals <= one ? 1 : 1.5;
  return times * e * (when === 'service' ? IN_SERVICE : 1);
};

interface ClassLimits {
  /** Number of intervals, Max/e. */
  readonly fewest: number;
  readonly most: number;
  /** Smallest load, in intervals. */
  readonly leastLoad: number;
}

/** OIML R 76-1:2006, Table 3, `e` in grams; `null` where the table has no such instrument. */
export const classLimits = (scaleClass: ScaleClass, e: number): ClassLimits | null => {
  switch (scaleClass) {
    case 'I':
      return e >= 0.001 ? { fewest: 50_000, most: Number.POSITIVE_INFINITY, leastLoad: 100 } : null;
    case 'II':
      if (e >= 0.001 && e <= 0.05) return { fewest: 100, most: 100_000, leastLoad: 20 };
      return e >= 0.1 ? { fewest: 5_000, most: 100_000, leastLoad: 50 } : null;
    case 'III':
      if (e >= 0.1 && e <= 2) return { fewest: 100, most: 10_000, leastLoad: 20 };
      return e >= 5 ? { fewest: 500, most: 10_000, leastLoad: 20 } : null;
    case 'IIII':
      break;
  }
  return e >= 5 ? { fewest: 100, most: 1_000, leastLoad: 10 } : null;
};

/** A division tells no more than this of a standard deviation: d/√6, the difference of two rounded readings; USP <41> writes 0.41 d. */
const OF_A_DIVISION = 0.41;

/** Standard deviation of a weighing that a scale cannot do better than, measured or not. */
export const weighingSpread = (repeatability: number | null, division: number): number =>
  Math.max(repeatability ?? 0, OF_A_DIVISION * division);

/**
 * Least that can be weighed within a relative tolerance, by the form of USP <41>: 2·max(s, 0.41 d) ÷ tolerance. At its own 0.10 % that
 * is 2000 s, and never below 820 d.
 * @param tolerance half-width over target, above 0
 */
export const smallestWeight = (repeatability: number | null, division: number, tolerance: number): number => {
  if (!(tolerance > 0)) throw new RangeError('a tolerance is above zero');
  return (2 * weighingSpread(repeatability, division)) / tolerance;
};

/** USP <41>: repeatability of 0.10 %. Shown beside a line's own tolerance, never the gate. */
export const USP_TOLERANCE = 0.001;
