import type { BarsState, BarWeight } from './state';
import type { UnmouldState } from './entries';

/** Where the log is: the newest answer that stands; `null` before the first. */
export const standingState = ({ unmould }: BarsState): UnmouldState | null =>
  unmould.findLast(({ struck }) => struck === null)?.state ?? null;

/** Weighings that stand, oldest first. */
export const standingWeights = ({ weights }: BarsState, purpose: BarWeight['for']): readonly BarWeight[] =>
  weights.filter((one) => one.struck === null && one.for === purpose);
