/** One stream of the bench journal (a batch, a bar lot) as far as it was folded. */
export interface Folded<S = unknown> {
  /** Number of the line that began it: the order of its list. */
  readonly startSeq: number;
  readonly state: S;
  /** Its row of the list as stored: the same row always has the same text. */
  readonly row: string;
  /** An entry could not be folded (a kind of a newer program): the row stays as it was before it, now and at every replay. */
  readonly stuck: boolean;
}

/** How one kind of stream is folded to its row. */
export interface Projection<S, E> {
  readonly begins: (entry: E) => boolean;
  readonly evolve: (state: S | null, entry: E) => S;
  readonly rowOf: (state: S) => object;
}

/** One entry further; `null` as long as nothing has begun. Never throws: a list that lags behind must not stop a weight. */
export const foldOne = <S, E>(
  { begins, evolve, rowOf }: Projection<S, E>,
  before: Folded<S> | null,
  seq: number,
  entry: E,
): Folded<S> | null => {
  if (before === null && !begins(entry)) return null;
  if (before?.stuck) return before;
  try {
    const state = evolve(before?.state ?? null, entry);
    return { startSeq: before?.startSeq ?? seq, state, row: JSON.stringify(rowOf(state)), stuck: false };
  } catch {
    return before === null ? null : { ...before, stuck: true };
  }
};
