import { evolve, summaryOf } from '#lib/work/bars/index';
import type { BarsEntry, BarsState } from '#lib/work/bars/index';
import { foldOne } from './project';
import type { Folded, Projection } from './project';

const BARS: Projection<BarsState, BarsEntry> = { begins: ({ kind }) => kind === 'bars-begun', evolve, rowOf: summaryOf };

/** A bar lot one entry further. */
export const foldBars = (before: Folded<BarsState> | null, seq: number, entry: BarsEntry): Folded<BarsState> | null =>
  foldOne(BARS, before, seq, entry);

/** Nothing of it is to be made, kept or sold any more. */
export const isDone = ({ cut, counts }: BarsState): boolean => cut !== null && counts.shelf + counts.away + counts.aside === 0;
