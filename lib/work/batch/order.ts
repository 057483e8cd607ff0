import type { LineId } from '#lib/units/id';
import type { LinePlan } from './plan';
import type { BatchState, LineState } from './state';

/** Everything that can wait in a cup is weighed before joining; only what is used at trace and cannot wait comes after it. */
export const dueBeforeJoining = (plan: LinePlan): boolean => plan.phase !== 'trace' || plan.canWait;

interface Work {
  readonly order: readonly LineId[];
  readonly lines: Readonly<Record<LineId, LineState>>;
  readonly joined: BatchState['joined'];
}

/** The line to weigh now, in the order of work; `null` when nothing is to be weighed at this stage. `done` counts as closed. */
export const openLine = (work: Work, done: LineId | null = null): LineId | null =>
  work.order.find((id) => {
    const line = work.lines[id];
    return line !== undefined && id !== done && line.status !== 'closed' && (work.joined !== null || dueBeforeJoining(line.plan));
  }) ?? null;
