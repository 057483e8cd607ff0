import type { BarsState, WeighedFor } from '#lib/work/bars/index';
import { standingWeights } from '#lib/work/bars/standing';
import type { ExpectedBar } from './types';

/** A bar only loses. Ours: a tenth of a gram and two divisions gained are damp and rounding, a fifth lost is another bar. */
const GAINS = 0.01;
const LOSES = 0.2;
/** Bars of one log differ by the hand that cuts them. Ours. */
const APART = 0.25;

const DAY_MS = 86_400_000;
/** A bar's own last weight is the newest of so many. */
const RECENT = 20;

/** A scale is off by less than this of a known mass, or something else lies there. As for a check at the bench. */
const OFF = 0.05;

interface AskedBar {
  readonly bar: number | null;
  readonly for: WeighedFor;
  readonly known?: number | undefined;
}

/**
 * What lies there should about weigh: a known mass itself; a bar by its own last weight, else by others of its lot, else as it was to be cut;
 * `null`: nobody knows.
 */
export const expectedOf = (state: BarsState, { bar, for: purpose, known }: AskedBar, wall: number): ExpectedBar | null => {
  if (known !== undefined) return { ...between(known, OFF, OFF), own: false, days: 0 };
  const own = bar === null ? undefined : standingWeights(state, 'cure').findLast((one) => one.bar === bar);
  if (own !== undefined && purpose === 'cure')
    return { ...between(own.net, LOSES, GAINS), own: true, days: Math.max(0, Math.floor((wall - own.wall) / DAY_MS)) };
  const all = [...standingWeights(state, 'cure'), ...standingWeights(state, 'net')].slice(-RECENT).map(({ net }) => net as number);
  const middle = all.toSorted((a, b) => a - b)[Math.floor(all.length / 2)] ?? state.cut?.mass ?? null;
  return middle === null ? null : { ...between(middle, APART, APART), own: false, days: 0 };
};

const between = (like: number, less: number, more: number): Pick<ExpectedBar, 'low' | 'high' | 'like'> => ({
  low: Math.round(like * (1 - less)),
  high: Math.round(like * (1 + more)),
  like,
});
