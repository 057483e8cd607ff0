import type { Milligrams } from '#lib/units/mass';
import { countedOf, FRACTION, isLyeHeavy } from './lye-heavy';
import { asPoured, leastSuperfat } from './poured/as-poured';
import type { BatchState, LineState } from './state';
import { isOutside } from './verdict';

/** Whether so much of a line may make the batch lye-heavy, by the least superfat that is believed. */
const mayBeHeavy = (state: BatchState, line: LineState, total: Milligrams): boolean => {
  const per = line.plan.superfatPerGram ?? 0;
  // Nothing is worked out for what makes it no heavier.
  if (per >= 0) return false;
  const poured = asPoured(state);
  if (poured.kind !== 'figures' || poured.superfat === null) return false;
  return leastSuperfat(poured.superfat) + per * FRACTION * (total - countedOf(line)) < 0;
};

/**
 * An over-pour is red when a result leaves the formula's limits, when nobody has computed them, and when the batch may then be lye-heavy,
 * whatever the formula's limits say. `state`: before this weight.
 */
export const isRed = (state: BatchState, line: LineState, total: Milligrams): boolean =>
  isOutside(line.plan, total) || mayBeHeavy(state, line, total);

/**
 * Whether an over-pour may not simply stay in, by a word: the batch is lye-heavy with it, or may be. What is known of both is on the way
 * out that says so; without it nothing is carried on. `total`: of the line, entered or not yet.
 */
export const staysHeavy = (state: BatchState, line: LineState, total: Milligrams): boolean => {
  const { id } = line.plan;
  return mayBeHeavy(state, line, total) || isLyeHeavy({ ...state, lines: { ...state.lines, [id]: { ...line, actual: total } } });
};
