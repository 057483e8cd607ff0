import type { Fit } from './fit';
import { deviation, predict } from './mixture';
import type { Block, Doubt, Turn } from './types';

/** What was forecast at one moment, every so many seconds ahead, to be held against what came. */
export interface Snapshot {
  readonly at: number;
  readonly means: readonly number[];
  readonly deviations: readonly number[];
  /** Variance of a block about the law as it was then, with what blocks share, K². */
  readonly se2: number;
}

/** Sums over the tool's own forecasts of five minutes ahead, forgotten slowly. */
export interface Hindsight {
  readonly squares: number;
  readonly count: number;
}

/** Twelve minutes ahead, and the last eleven minutes' worth of them: what cools slowly gives itself away late. */
const STEP_S = 40;
const STEPS = 18;
const KEPT = 34;

export const keep = (snapshots: readonly Snapshot[], snapshot: Snapshot): readonly Snapshot[] => [...snapshots, snapshot].slice(-KEPT);

export const snapshotOf = (fit: Fit, doubt: Doubt): Snapshot => {
  const now = predict(fit, 0).mean;
  const moments = Array.from({ length: STEPS + 1 }, (_, i) => predict(fit, i * STEP_S));
  return {
    at: fit.at,
    means: moments.map(({ mean }) => mean),
    deviations: moments.map((one, i) => deviation(one, now - one.mean, i * STEP_S, doubt)),
    se2: fit.se2,
  };
};

/** What a snapshot said of that moment; `null` where it says nothing. */
export const said = (
  { at, means, deviations }: Snapshot,
  when: number,
): { readonly celsius: number; readonly deviation: number } | null => {
  const place = (when - at) / STEP_S;
  const i = Math.min(STEPS - 1, Math.floor(place));
  if (place < 0 || place > STEPS) return null;
  const between = (values: readonly number[]): number => {
    const [a, b] = [values[i] as number, values[i + 1] as number];
    return a + (b - a) * (place - i);
  };
  return { celsius: between(means), deviation: between(deviations) };
};

/** The newest snapshot at least so much older than a moment. */
export const olderBy = (snapshots: readonly Snapshot[], when: number, seconds: number): Snapshot | undefined =>
  snapshots.findLast(({ at }) => when - at >= seconds);

const FIVE_MINUTES = 300;
const FORGET_S = 1800;
/** One wild miss counts no more than this, in squares of what was expected. */
const MOST_SQUARE = 12;
/** Mean square that the intervals were made for, and how many blocks that belief is worth: intervals start out wide. */
const EXPECTED = 0.4;
const BELIEF = 20;
const NARROWEST = 0.85;
const WIDEST = 2.5;

/** Holds the newest block against what was forecast of it five minutes before. */
export const learn = (
  hindsight: Hindsight,
  snapshots: readonly Snapshot[],
  block: Block,
  before: Block | undefined,
  s2: number,
): Hindsight => {
  const forget = Math.exp(-(block.at - (before?.at ?? block.at)) / FORGET_S);
  const faded = { squares: hindsight.squares * forget, count: hindsight.count * forget };
  const snapshot = olderBy(snapshots, block.at, FIVE_MINUTES - 15);
  const then = snapshot === undefined ? null : said(snapshot, block.at);
  if (then === null) return faded;
  const square = (block.celsius - then.celsius) ** 2 / (then.deviation ** 2 + s2);
  return { squares: faded.squares + Math.min(MOST_SQUARE, square), count: faded.count + 1 };
};

/** By how much intervals are to be widened after what the forecasts of this vessel missed by. */
const widened = ({ squares, count }: Hindsight): number =>
  Math.min(WIDEST, Math.max(NARROWEST, Math.sqrt((squares + BELIEF * EXPECTED) / (count + BELIEF) / EXPECTED)));

/** Seconds in which the first doubt about a new law goes, and how large it is. */
const YOUNG_S = 240;
const YOUNG = 3;
const REST = 0.05;
/** K of doubt for each degree yet to go; in a bath, which warms and is taken away, more. */
const PER_DEGREE = { bath: 0.2, air: 0.025 } as const;

/** The doubt of a law that has held for so many seconds. */
export const doubtOf = (age: number, turn: Turn | null, hindsight: Hindsight): Doubt => ({
  rest: REST,
  perDegree: turn === 'faster' ? PER_DEGREE.bath : PER_DEGREE.air,
  times: (1 + YOUNG * Math.exp(-age / YOUNG_S)) * widened(hindsight),
});
