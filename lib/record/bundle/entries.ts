/** One line of the batch as the chain has it. */
interface OwnLine {
  readonly seq: number;
  readonly leaf: string;
}

/**
 * How the texts of a batch differ from the lines the chain says it has. `entry` counts the texts from 1, `seq` the lines of the journal.
 * `cut`: everything from one line to the last of the batch is lacking.
 */
export type EntryFinding =
  | { readonly how: 'changed' | 'moved'; readonly entry: number; readonly seq: number }
  | { readonly how: 'inserted'; readonly entry: number }
  | { readonly how: 'deleted'; readonly seq: number }
  | { readonly how: 'cut'; readonly seq: number; readonly to: number };

/** Holds the hashes of the texts, in the order they stand in, against the leaves of the lines. */
export const compareEntries = (hashes: readonly string[], own: readonly OwnLine[]): readonly EntryFinding[] => {
  const placeOf = new Map(own.map(({ leaf }, place) => [leaf, place]));
  const found: EntryFinding[] = [];
  const known = new Set<number>();
  const strangers: { readonly entry: number; readonly after: number }[] = [];
  let furthest = -1;
  for (const [at, hash] of hashes.entries()) {
    const place = placeOf.get(hash);
    if (place === undefined || known.has(place)) strangers.push({ entry: at + 1, after: furthest });
    else {
      known.add(place);
      if (place < furthest) found.push({ how: 'moved', entry: at + 1, seq: own[place]?.seq ?? 0 });
      furthest = Math.max(furthest, place);
    }
  }
  // A text that belongs nowhere stands for the line that is lacking in its place, if one is.
  const paired = new Set<number>();
  for (const { entry, after } of strangers) {
    let place = after + 1;
    while (paired.has(place)) place += 1;
    const line = known.has(place) ? undefined : own[place];
    if (line === undefined) found.push({ how: 'inserted', entry });
    else {
      paired.add(place);
      found.push({ how: 'changed', entry, seq: line.seq });
    }
  }
  return [...found, ...lacking(own, new Set([...known, ...paired]))];
};

const lacking = (own: readonly OwnLine[], taken: ReadonlySet<number>): readonly EntryFinding[] => {
  const last = own.findLastIndex((_, place) => taken.has(place));
  const inside = own.flatMap(({ seq }, place): EntryFinding[] => (place < last && !taken.has(place) ? [{ how: 'deleted', seq }] : []));
  const [first, end] = [own[last + 1], own.at(-1)];
  return first === undefined || end === undefined ? inside : [...inside, { how: 'cut', seq: first.seq, to: end.seq }];
};
