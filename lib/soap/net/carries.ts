import { meanOf } from '#lib/units/sum';
import { above, fraction } from '../check';
import { SAMPLED_FROM } from './plans';
import { deviationOf } from './sample';
import { normalQuantile, studentQuantile } from './student';
import { LEAST_NOMINAL, tolerableError } from './tolerable';

export interface CarriesQuestion {
  /** Net weights now, grams. */
  readonly weights: readonly number[];
  readonly lot: number;
  /** One-sided: 0.95. */
  readonly confidence: number;
  /** The least that is left of today's weight when the label must be true, as a fraction: 1 where nothing more dries away. */
  readonly left: number;
  /** Labels come in steps of so many grams. */
  readonly step: number;
}

export interface Carries {
  /** The heaviest label this lot can carry, grams, a whole number of steps. */
  readonly label: number;
  /** What holds it there. */
  readonly by: 'mean' | 'tne' | 'twice-tne';
  /** The lot's mean as it is at least, and what so many bars in a hundred weigh at least, all of them at the end. */
  readonly mean: number;
  readonly lightest: { readonly most: number; readonly nearlyAll: number };
  /** Every bar was weighed: nothing is inferred. */
  readonly whole: boolean;
}

/** Of a hundred bars 2.5 may lie below Qn − TNE (packers' guidance), and of ten thousand one below Qn − 2·TNE. */
const SHARES = { most: 0.975, nearlyAll: 0.9999 } as const;
/** Fewer say nothing of a spread. */
const LEAST_BARS = 5;

/**
 * How many deviations below the mean a share of all bars lies at most, with a confidence: one-sided tolerance factor for a normal
 * distribution, Natrella's approximation (NIST Handbook 91, 2-1.4, from memory). Infinite where the sample is too small for it.
 */
const toleranceFactor = (share: number, confidence: number, n: number): number => {
  const [zp, zg] = [normalQuantile(share), normalQuantile(confidence)];
  const a = 1 - (zg * zg) / (2 * (n - 1));
  const b = zp * zp - (zg * zg) / n;
  return a <= 0 ? Number.POSITIVE_INFINITY : (zp + Math.sqrt(Math.max(0, zp * zp - a * b))) / a;
};

const ranked = (weights: readonly number[], share: number): number => {
  const ascending = weights.toSorted((x, y) => x - y);
  return ascending[Math.floor((1 - share) * ascending.length)] as number;
};

/**
 * The label weight a lot of bars can carry: its mean at least the label, and few enough light ones, with a confidence, after whatever it
 * still loses. `null` where too few bars were weighed to say, or it would be below what the average system covers. @throws RangeError
 */
export const labelItCarries = ({ weights, lot, confidence, left, step }: CarriesQuestion): Carries | null => {
  above(step, 'the step of a label');
  fraction(left, 'what is left of a weight');
  if (!(confidence > 0.5 && confidence < 1)) throw new RangeError('a confidence lies between a half and 1');
  for (const weight of weights) above(weight, 'a net weight');
  const n = weights.length;
  if (n > lot) throw new RangeError('more bars were weighed than the lot has');
  const whole = n === lot && lot < SAMPLED_FROM;
  if (n === 0 || (!whole && n < LEAST_BARS)) return null;
  const [average, s] = [meanOf(weights), deviationOf(weights)];
  const finite = Math.sqrt(1 - n / lot);
  const mean = left * (whole ? average : average - (studentQuantile(confidence, n - 1) * s * finite) / Math.sqrt(n));
  const light = (share: number): number =>
    left * (whole ? ranked(weights, share) : Math.min(ranked(weights, share), average - toleranceFactor(share, confidence, n) * s));
  const lightest = { most: light(SHARES.most), nearlyAll: light(SHARES.nearlyAll) };
  const limits: readonly (readonly [Carries['by'], (label: number) => boolean])[] = [
    ['mean', (label) => label <= mean],
    ['tne', (label) => label - tolerableError(label).grams <= lightest.most],
    ['twice-tne', (label) => label - 2 * tolerableError(label).grams <= lightest.nearlyAll],
  ];
  let by: Carries['by'] = 'mean';
  for (let label = Math.floor(mean / step + 1e-9) * step; label >= LEAST_NOMINAL; label = Math.round((label - step) / step) * step) {
    const broken = limits.find(([, holds]) => !holds(label));
    if (broken === undefined) return { label, by, mean, lightest, whole };
    [by] = broken;
  }
  return null;
};
