import type { Entry } from '#lib/work/batch/index';
import type { Play } from '../play';
import type { Accepted, RecordReader, Told } from '../record';

/** What is looked at after each thing that happened. */
export interface Look {
  readonly play: Play;
  readonly record: RecordReader;
  /** Entries that came since the last look, each with the batch as it stood before it and its place in its commit. */
  readonly fresh: readonly { readonly entry: Entry; readonly before: Told['state'] | null; readonly commit: number }[];
  /** Nothing waits: no append for the disk, no intent for its answer. */
  readonly quiet: boolean;
}

export interface Invariant {
  readonly name: string;
  /** What broke it; nothing: it holds. */
  check(look: Look): readonly string[];
}

export const accepts = (fresh: Look['fresh']): readonly Accepted[] =>
  fresh.flatMap(({ entry }) => (entry.kind === 'weight-accepted' ? [entry] : []));
