import { mg } from '#lib/units/mass';
import { lotsOf, onceNamed, withoutLot } from './lots';
import type { BatchState } from './state';

/** One batch in a row of the list of batches. Masses in whole milligrams. */
export interface BatchSummary {
  readonly id: string;
  readonly mark: string;
  readonly realm: BatchState['realm'];
  readonly name: string;
  readonly status: BatchState['status'];
  readonly startedWall: number;
  readonly endedWall: number | null;
  readonly lines: { readonly closed: number; readonly of: number };
  readonly actual: number;
  /** Σ targets as the batch started with them. */
  readonly planned: number;
  readonly overPours: number;
  readonly overrides: number;
  /** Weights typed by hand. */
  readonly byHand: number;
  /** Deviations a person wrote down; left out where there are none. */
  readonly stated?: number;
  /** What was weighed from each lot, put right and what went back to its bottle included: stock and following a lot rest on it. */
  readonly lots: readonly { readonly lot: string; readonly mark: string; readonly mass: number }[];
  /** What went in of no stated lot, by material; left out only in rows of a program that did not keep it. */
  readonly unlotted?: readonly { readonly material: string; readonly mass: number }[];
  /** Lots its record named until somebody put it right; left out where there are none. */
  readonly onceLots?: readonly { readonly lot: string; readonly mark: string }[];
}

export const summaryOf = (state: BatchState): BatchSummary => {
  const lines = Object.values(state.lines);
  const onceLots = onceNamed(state);
  return {
    id: state.id,
    mark: state.mark,
    realm: state.realm,
    name: state.plan.formula.name,
    status: state.status,
    startedWall: state.startedWall,
    endedWall: state.endedWall,
    lines: { closed: lines.filter((line) => line.status === 'closed').length, of: lines.length },
    actual: mg(lines.reduce((sum, line) => sum + line.actual, 0)),
    planned: mg(lines.reduce((sum, line) => sum + line.planned.target, 0)),
    ...state.counts,
    lots: lotsOf(state),
    unlotted: withoutLot(state),
    ...(onceLots.length > 0 ? { onceLots } : {}),
  };
};
