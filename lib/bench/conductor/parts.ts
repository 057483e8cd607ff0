import { mg, type Milligrams } from '#lib/units/mass';
import type { BatchState, LineState } from '#lib/work/batch/index';

/** Of one part: a part weighed a little short asks for no part more. */
const SLACK = 0.03;

/** What the line should have after the part that is poured now: its target, unless more is left than goes at once. */
export const goalOf = ({ plan, actual }: LineState): Milligrams => {
  const left = plan.target - actual;
  if (plan.atOnce === undefined || left <= (1 + SLACK) * plan.atOnce) return plan.target;
  const parts = Math.ceil(left / plan.atOnce - SLACK);
  return mg(actual + Math.round(left / parts));
};

/** The jug holds what it can, and what is poured now would not go in: it is carried over first. */
export const isFullForNow = (batch: BatchState, line: LineState): boolean => {
  const { atOnce, into, vessel, mode } = line.plan;
  if (atOnce === undefined || into === undefined || mode !== 'gain') return false;
  const held = batch.vessels[vessel]?.contents ?? 0;
  return held > SLACK * atOnce && held + goalOf(line) - line.actual > (1 + SLACK) * atOnce;
};
