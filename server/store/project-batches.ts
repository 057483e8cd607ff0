import type { BatchListRow } from '#lib/protocol/http';
import { evolve } from '#lib/work/batch/evolve/index';
import type { BatchState, Entry } from '#lib/work/batch/index';

/** A batch as far as it was folded. */
export interface Folded {
  /** Number of the line that started it: the order of the list. */
  readonly startSeq: number;
  readonly state: BatchState;
  /** Its row of the list as stored: the same row always has the same text. */
  readonly row: string;
  /** An entry could not be folded (a kind of a newer program): the row stays as it was before it, now and at every replay. */
  readonly stuck: boolean;
}

/** One entry further; `null` as long as no batch has started. Never throws: a list that lags behind must not stop a weight. */
export const foldEntry = (before: Folded | null, seq: number, entry: Entry): Folded | null => {
  if (before === null && entry.kind !== 'batch-started') return null;
  if (before?.stuck) return before;
  try {
    const state = evolve(before?.state ?? null, entry);
    return { startSeq: before?.startSeq ?? seq, state, row: JSON.stringify(batchRow(state)), stuck: false };
  } catch {
    return before === null ? null : { ...before, stuck: true };
  }
};

/** A row of the list of batches. It adds up what the state holds and knows no rule of its own. */
export const batchRow = (state: BatchState): BatchListRow => {
  const lines = Object.values(state.lines);
  return {
    id: state.id,
    mark: state.mark,
    realm: state.realm,
    name: state.plan.formula.name,
    status: state.status,
    startedWall: state.startedWall,
    endedWall: state.endedWall,
    lines: { closed: lines.filter((line) => line.status === 'closed').length, of: lines.length },
    actual: lines.reduce((sum, line) => sum + line.actual, 0),
    planned: lines.reduce((sum, line) => sum + line.plan.target, 0),
    ...state.counts,
  };
};
