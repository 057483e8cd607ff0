import type { Findable } from '#lib/work/batch/found';

/** One stream of the bench journal (a batch, a bar lot) as far as it was folded. */
export interface Folded<S = unknown> {
  /** Number of the line that began it: the order of its list. */
  readonly startSeq: number;
  readonly state: S;
  /** Its row of the list as stored: the same row always has the same text. */
  readonly row: string;
  /** An entry could not be folded (a kind of a newer program): the row stays as it was before it, now and at every replay. */
  readonly stuck: boolean;
  /** What it is found by; the same object as long as that is the same. `null` for what is not searched. */
  readonly found: Findable | null;
}

/** How one kind of stream is folded to its row. */
export interface Projection<S, E> {
  readonly begins: (entry: E) => boolean;
  readonly evolve: (state: S | null, entry: E) => S;
  readonly rowOf: (state: S) => object;
  readonly foundBy?: (before: Findable | null, entry: E) => Findable;
}

/** One entry further; `null` as long as nothing has begun. Never throws: a list that lags behind must not stop a weight. */
export const foldOne = <S, E>(
  { begins, evolve, rowOf, foundBy }: Projection<S, E>,
  before: Folded<S> | null,
  seq: number,
  entry: E,
): Folded<S> | null => {
  if (before === null && !begins(entry)) return null;
  if (before?.stuck) return before;
  try {
    const state = evolve(before?.state ?? null, entry);
    const found = foundBy?.(before?.found ?? null, entry) ?? null;
    return { startSeq: before?.startSeq ?? seq, state, row: JSON.stringify(rowOf(state)), stuck: false, found };
  } catch {
    return before === null ? null : { ...before, stuck: true };
  }
};
