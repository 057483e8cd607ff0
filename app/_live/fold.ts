import { BrokenHistory, evolve } from '#lib/work/batch/evolve/index';
import type { BatchState, Entry } from '#lib/work/batch/index';
import type { Folded } from './live';

/** The only schema version of entries there is; a line of another one was written by a newer program. */
const VERSION = 1;

const read = (line: string): Entry => {
  const entry = JSON.parse(line) as Entry;
  if (entry.v !== VERSION) throw new BrokenHistory(`version ${String(entry.v)} of ${entry.kind}`);
  return entry;
};

/**
 * The page folds what the server folded, with the same `evolve`. Every line was parsed by schema before it was stored, so the page
 * carries no second copy of the schemas; a line it cannot fold (a newer kind or version, a gap) makes the batch one to look at:
 * nothing is acted on from half a history.
 */
export const fold = (batch: BatchState | null, lines: readonly string[]): Folded => {
  let state = batch;
  try {
    for (const line of lines) state = evolve(state, read(line));
    return { batch: state, unreadable: null };
  } catch (error) {
    return { batch: state, unreadable: error instanceof Error ? error.message : String(error) };
  }
};
