import { evolve } from '#lib/work/batch/evolve/index';
import { foundBy } from '#lib/work/batch/found';
import { summaryOf } from '#lib/work/batch/summary';
import type { BatchState, Entry } from '#lib/work/batch/index';
import { foldOne } from './project';
import type { Folded, Projection } from './project';

const BATCHES: Projection<BatchState, Entry> = { begins: ({ kind }) => kind === 'batch-started', evolve, rowOf: summaryOf, foundBy };

/** A batch one entry further; its row is the summary that its review has. */
export const foldEntry = (before: Folded<BatchState> | null, seq: number, entry: Entry): Folded<BatchState> | null =>
  foldOne(BATCHES, before, seq, entry);
