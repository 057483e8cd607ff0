import type { LineId } from '#lib/units/id';
import { mg, type Milligrams } from '#lib/units/mass';
import type { LinePlan } from '../plan';
import type { BatchState } from '../state';

const isOf = (a: LinePlan, b: LinePlan): boolean => a.material.id === b.material.id;

/** How much of a line's material is in the batch, whichever lines it came by. */
export const pouredOf = ({ lines }: Pick<BatchState, 'lines'>, of: LinePlan): Milligrams =>
  mg(Object.values(lines).reduce((sum, { plan, actual }) => (isOf(plan, of) ? sum + actual : sum), 0));

/**
 * What is left of each line's lot by the books of the stores, where they say what came in: `lots` less what was poured of it since they were
 * looked at (`before`). What is still to come by plan counts as there: books are not what a pour waits for, a person's word is.
 */
export const stockByBooks = (
  state: Pick<BatchState, 'lines'>,
  before: Pick<BatchState, 'lines'>,
  lots: ReadonlyMap<string, Milligrams>,
): Readonly<Record<LineId, Milligrams>> => {
  const left: Record<LineId, Milligrams> = {};
  for (const { plan, actual, status } of Object.values(state.lines)) {
    const booked = plan.lot === null ? undefined : lots.get(plan.lot.id);
    if (booked === undefined) continue;
    const since = actual - (before.lines[plan.id]?.actual ?? 0);
    const toCome = status === 'closed' ? 0 : plan.target - actual;
    left[plan.id] = mg(Math.max(0, toCome, booked - since));
  }
  return left;
};

/** What is left on the shelf for each line of which a person said so: less what was poured since; what came back counts for nothing. */
export const stockAtHand = (state: BatchState): Readonly<Record<LineId, Milligrams>> => {
  const left: Record<LineId, Milligrams> = {};
  for (const { line: id, left: then, had } of state.shelf) {
    const of = state.lines[id]?.plan;
    if (of === undefined) continue;
    const now = mg(Math.max(0, then - Math.max(0, pouredOf(state, of) - had)));
    for (const { plan } of Object.values(state.lines)) if (isOf(plan, of)) left[plan.id] = now;
  }
  return left;
};
