import type { LineId } from '#lib/units/id';
import type { LinePlan } from './plan';
import { standing } from './pouring/types';
import type { BatchState, LineState } from './state';

/** Everything that can wait in a cup is weighed before joining; only what is used at trace and cannot wait comes after it. */
export const dueBeforeJoining = (plan: LinePlan): boolean => plan.phase !== 'trace' || plan.canWait;

interface Work {
  readonly order: readonly LineId[];
  readonly lines: Readonly<Record<LineId, LineState>>;
  readonly joined: BatchState['joined'];
  readonly pour: BatchState['pour'];
}

/** What goes into a part is weighed for the grams that are in it, and so not before them. */
const partMissing = ({ pour }: Work, { part }: LinePlan): boolean =>
  part !== undefined && !standing(pour.parts).some(({ id }) => id === part);

/** The line to weigh now, in the order of work; `null` when nothing is to be weighed at this stage. `done` counts as closed. */
export const openLine = (work: Work, done: LineId | null = null): LineId | null =>
  work.order.find((id) => {
    const line = work.lines[id];
    if (line === undefined || id === done || line.status === 'closed') return false;
    return dueBeforeJoining(line.plan) || (work.joined !== null && !partMissing(work, line.plan));
  }) ?? null;
