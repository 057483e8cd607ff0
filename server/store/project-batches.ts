import type { BatchListRow } from '#lib/protocol/http';
import { evolve } from '#lib/work/batch/evolve/index';
import { summaryOf } from '#lib/work/batch/summary';
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

/** A row of the list of batches: the summary of a review, but planned as the targets stand now, where a review says them as they began. */
export const batchRow = (state: BatchState): BatchListRow => ({
  ...summaryOf(state),
  planned: Object.values(state.lines).reduce((sum, line) => sum + line.plan.target, 0),
});
