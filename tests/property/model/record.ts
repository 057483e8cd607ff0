import { isDeepStrictEqual } from 'node:util';
import type { JournalLine } from '#lib/record/journal';
import { evolve } from '#lib/work/batch/index';
import type { BatchState, Entry, EntryOf, Share } from '#lib/work/batch/index';

/** One line's share of one entry that adds to it or takes from it. */
interface Part {
  readonly entry: string;
  readonly line: string;
  readonly net: number;
}

/** A batch as its stored lines tell it, by plain sums beside the folded state. */
export interface Told {
  state: BatchState;
  readonly parts: Part[];
  readonly struck: Set<string>;
  /** Portioned out of the batter: still in the batch, in no vessel. */
  readonly portions: Part[];
}

/** The journal read line by line as it grows, by rules of its own that are simpler than the product's. */
export class RecordReader {
  readonly entries: Entry[] = [];
  readonly batches = new Map<string, Told>();
  seq = 0;

  /** The entries of the lines that came since. */
  read(lines: readonly JournalLine[]): readonly Entry[] {
    const fresh = lines.map((line) => JSON.parse(line.text) as Entry);
    for (const entry of fresh) {
      this.#tell(entry);
      this.entries.push(entry);
    }
    this.seq += lines.length;
    return fresh;
  }

  #tell(entry: Entry): void {
    const before = this.batches.get(entry.batch);
    const state = evolve(before?.state ?? null, entry);
    const told = before ?? { state, parts: [], struck: new Set(), portions: [] };
    told.state = state;
    this.batches.set(entry.batch, told);
    told.parts.push(...partsOf(entry));
    if (entry.kind === 'struck') told.struck.add(entry.body.entry);
    if (entry.kind === 'split') told.portions.push(...sharesOf(entry, entry.body.shares, 1));
  }
}

const sharesOf = (entry: Entry, shares: readonly Share[] = [], sign: 1 | -1 = -1): readonly Part[] =>
  shares.map(({ line, mass }) => ({ entry: entry.id, line, net: sign * mass }));

const partsOf = (entry: Entry): readonly Part[] => {
  if (entry.kind === 'batch-started') return sharesOf(entry, entry.body.from?.shares, 1);
  if (entry.kind === 'weight-accepted') return [{ entry: entry.id, line: entry.body.line, net: entry.body.weighed.net }];
  if (entry.kind === 'weight-typed') return [{ entry: entry.id, line: entry.body.line, net: entry.body.typed.net }];
  if (entry.kind === 'weighed-back' || entry.kind === 'withdrawn' || entry.kind === 'lost') return sharesOf(entry, entry.body.shares);
  return [];
};

/** What a line has by the stored entries alone: every part that was not crossed out. */
export const sumOf = ({ parts, struck }: Told, line: string): number =>
  parts.reduce((sum, part) => (part.line === line && !struck.has(part.entry) ? sum + part.net : sum), 0);

export const portionedOf = ({ portions }: Told, line: string): number =>
  portions.reduce((sum, part) => (part.line === line ? sum + part.net : sum), 0);

export const same = (a: unknown, b: unknown): boolean => isDeepStrictEqual(a, b);

export type Accepted = EntryOf<'weight-accepted'>;
