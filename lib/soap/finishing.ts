import { above } from './check';
import { studentQuantile } from './net/student';

/** Bars weighed together before and after one way of finishing them, grams. */
export interface Finished {
  /** Planed, bevelled, stamped: bars go through one after the other, and each takes its own. */
  readonly how: string;
  readonly bars: number;
  readonly before: number;
  readonly after: number;
}

/** What finishing takes off a bar, grams. */
export interface FinishingLoss {
  readonly mean: number;
  /** What a bar to come may miss that by, 90 in 100. */
  readonly half: number;
  /** Of the way that fewest bars were weighed for. */
  readonly bars: number;
  /** Ten bars were weighed: fewer are shown as a beginning. */
  readonly learned: boolean;
}

const BARS_TO_LEARN = 10;
/** Bars weighed together once do not show how they differ. Ours, no source: by half of what is taken off them. */
const ONE_LOOK = 0.5;
const HIGH = 0.95;
/** Of a normal distribution 90 in 100 lie within so many standard uncertainties. */
const NINETY = 1.645;

interface Loss {
  readonly bars: number;
  /** Of one bar. */
  readonly mean: number;
  /** Standard uncertainty of the mean by the digits that were typed. */
  readonly read: number;
}

/** The last digit that was typed, at the coarsest a gram: the step of a scale nobody names. */
const stepOf = (grams: readonly number[]): number =>
  [1, 0.1, 0.01].find((step) => grams.every((one) => Math.abs(one / step - Math.round(one / step)) < 1e-6)) ?? 0.001;

const lossOf = ({ bars, before, after }: Finished): Loss => {
  if (!(Number.isInteger(bars) && bars > 0)) throw new RangeError('a whole number of bars is weighed');
  if (above(after, 'a finished bar') > above(before, 'a bar')) throw new RangeError('no bar is heavier after finishing than before');
  return { bars, mean: (before - after) / bars, read: stepOf([before, after]) / Math.sqrt(6) / bars };
};

/**
 * One way of finishing. Of n bars weighed together only the mean is seen, and it scatters by a bar's own σ ÷ √n: σ² = Σ n (m − m̄)² ÷ (looks − 1),
 * and a bar to come misses the mean by t · σ · √(1 + 1/Σn).
 */
const oneWay = (looks: readonly Loss[]): FinishingLoss => {
  const bars = looks.reduce((sum, one) => sum + one.bars, 0);
  const mean = looks.reduce((sum, one) => sum + one.bars * one.mean, 0) / bars;
  const freedom = looks.length - 1;
  const squares = looks.reduce((sum, one) => sum + one.bars * (one.mean - mean) ** 2, 0);
  const scatter = freedom < 1 ? NINETY * ONE_LOOK * mean : studentQuantile(HIGH, freedom) * Math.sqrt(squares / freedom);
  const read = Math.sqrt(looks.reduce((sum, one) => sum + (one.bars * one.read) ** 2, 0)) / bars;
  return { mean, half: Math.hypot(scatter * Math.sqrt(1 + 1 / bars), NINETY * read), bars, learned: bars >= BARS_TO_LEARN };
};

/**
 * What every way of finishing that was weighed takes off a bar, together. `null` before any bar was weighed: then nothing is taken off, and
 * it says so. @throws RangeError for a bar that grew
 */
export const finishingLoss = (weighed: readonly Finished[]): FinishingLoss | null => {
  const ways = new Set(weighed.map(({ how }) => how));
  const all = [...ways].map((way) => oneWay(weighed.filter(({ how }) => how === way).map(lossOf)));
  if (all.length === 0) return null;
  return {
    mean: all.reduce((sum, one) => sum + one.mean, 0),
    half: Math.hypot(...all.map(({ half }) => half)),
    bars: Math.min(...all.map(({ bars }) => bars)),
    learned: all.every(({ learned }) => learned),
  };
};
