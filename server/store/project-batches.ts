import { evolve } from '#lib/work/batch/evolve/index';
import { summaryOf } from '#lib/work/batch/summary';
import type { BatchState, Entry } from '#lib/work/batch/index';

/** A batch as far as it was folded. */
export interface Folded {
  /** Number of the line that started it: the order of the list. */
  readonly startSeq: number;
  readonly state: BatchState;
  /** Its row of the list as stored, the summary that its review has: the same row always has the same text. */
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
    return { startSeq: before?.startSeq ?? seq, state, row: JSON.stringify(summaryOf(state)), stuck: false };
  } catch {
    return before === null ? null : { ...before, stuck: true };
  }
};
