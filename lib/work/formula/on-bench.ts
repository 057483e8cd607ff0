import type { LinePlan, Plan } from '../batch/plan';
import type { Scale } from './context';
import { toleranceOn } from './scales';

/**
 * The plan as this bench can lead it. A line whose scale is not here goes to the other one, keeps in `meant` which it was planned for, and
 * has a tolerance that the other can show. With no scale at all, or where that tolerance would let the line pass its upper, its weight is
 * typed by hand: a line that waits for a scale nobody has would end the batch. A line that has its scale is left as it is.
 */
export const planOnBench = (plan: Plan, scales: readonly Scale[]): Plan => ({
  ...plan,
  lines: plan.lines.map((line) => (line.mode === 'by-hand' || scales.some(({ role }) => role === line.scale) ? line : moved(line, scales))),
});

const moved = (line: LinePlan, scales: readonly Scale[]): LinePlan => {
  const [other] = scales;
  if (other === undefined) return { ...line, mode: 'by-hand' };
  const tolerance = toleranceOn(other, line.tolerance);
  // Loosened only as far as the other scale cannot show it.
  const shown = tolerance > line.tolerance ? tolerance : line.tolerance;
  if (line.upper !== null && line.target + shown > line.upper) return { ...line, mode: 'by-hand' };
  return { ...line, scale: other.role, tolerance: shown, meant: line.scale };
};
