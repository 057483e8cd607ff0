import type { LineResult } from './line';

/** Counts over many lines; times are kept to take quantiles. Plain data: it crosses from one process to another. */
export interface Tally {
  lines: number;
  accepted: number;
  wrong: number;
  undetected: number;
  outOfBand: number;
  asked: number;
  over: number;
  never: number;
  needless: number;
  littleMore: number;
  readonly seconds: number[];
  readonly reasons: Map<string, number>;
  readonly ends: Readonly<Record<Guided, Ends>>;
}

/** What a hand goes by besides the figure: nothing, the cue alone, or the cue and its tone. */
export const GUIDED = ['uncued', 'cued', 'by ear'] as const;
export type Guided = (typeof GUIDED)[number];

/** Where the first pour of a line ended. */
export interface Ends {
  count: number;
  error: number;
  short: number;
  over: number;
}

const noEnds = (): Ends => ({ count: 0, error: 0, short: 0, over: 0 });

export const newTally = (): Tally => ({
  lines: 0,
  accepted: 0,
  wrong: 0,
  undetected: 0,
  outOfBand: 0,
  asked: 0,
  over: 0,
  never: 0,
  needless: 0,
  littleMore: 0,
  seconds: [],
  reasons: new Map(),
  ends: { uncued: noEnds(), cued: noEnds(), 'by ear': noEnds() },
});

export const count = (tally: Tally, result: LineResult): void => {
  tally.lines += 1;
  if (result.outcome === 'accepted') {
    tally.accepted += 1;
    tally.seconds.push(result.seconds);
  }
  if (result.outcome === 'asked') {
    tally.asked += 1;
    tally.reasons.set(result.why, (tally.reasons.get(result.why) ?? 0) + 1);
  }
  if (result.outcome === 'over') tally.over += 1;
  if (result.outcome === 'never' || result.outcome === 'unset') tally.never += 1;
  if (result.wrong) tally.wrong += 1;
  if (result.undetected) tally.undetected += 1;
  if (result.outOfBand) tally.outOfBand += 1;
  if (result.needlessQuestion) tally.needless += 1;
  if (result.littleMore > 0) tally.littleMore += 1;
  countEnd(tally, result);
};

const countEnd = (tally: Tally, { firstEnd, heedsCue, hears, pieces }: LineResult): void => {
  if (firstEnd === null || pieces) return;
  const ends = tally.ends[hears ? 'by ear' : heedsCue ? 'cued' : 'uncued'];
  ends.count += 1;
  ends.error += Math.abs(firstEnd);
  if (firstEnd < -1) ends.short += 1;
  if (firstEnd > 1) ends.over += 1;
};

const COUNTS = [
  'lines',
  'accepted',
  'wrong',
  'undetected',
  'outOfBand',
  'asked',
  'over',
  'never',
  'needless',
  'littleMore',
] as const satisfies readonly (keyof Tally)[];

export const sum = (tallies: readonly Tally[]): Tally => {
  const total = newTally();
  for (const tally of tallies) {
    for (const key of COUNTS) total[key] += tally[key];
    total.seconds.push(...tally.seconds);
    for (const [why, times] of tally.reasons) total.reasons.set(why, (total.reasons.get(why) ?? 0) + times);
    for (const who of GUIDED) for (const key of ['count', 'error', 'short', 'over'] as const) total.ends[who][key] += tally.ends[who][key];
  }
  return total;
};
