import type { JournalLine } from './journal';
import { EMPTY, leafOf, linkOf, PORTABLE } from './seal';
import type { Head, Sha256 } from './seal';

/**
 * Where and how a chain is broken.
 * `changed`: the text is not what its leaf says. `missing`: the lines `seq` to `to` are not there. `out-of-place`: a line
 * stands where its number does not belong. `unlinked`: the line does not continue the one before it. `short`: the journal
 * ends before a head that is known from elsewhere. `other-head`: the line at such a head is not the one the head was taken from.
 */
export type Break =
  | { readonly how: 'changed' | 'out-of-place' | 'unlinked' | 'other-head'; readonly seq: number }
  | { readonly how: 'missing' | 'short'; readonly seq: number; readonly to: number };

/** How far a chain was walked, and every break found on the way, in order. */
export interface Walk {
  readonly head: Head;
  readonly breaks: readonly Break[];
}

/**
 * A walk along a chain, line by line, so that a long journal can be walked in pieces. `kept` are heads known from elsewhere:
 * without one, a tail cut off or written anew whole cannot be found, by anybody. Of a line marked as withdrawn only its leaf is walked.
 */
export class ChainWalk {
  readonly #kept: readonly Head[];
  readonly #keptAt = new Map<number, Head[]>();
  readonly #sha: Sha256;
  readonly #breaks: Break[] = [];
  #head: Head;

  constructor(kept: readonly Head[] = [], from: Head = EMPTY, sha: Sha256 = PORTABLE) {
    this.#kept = kept;
    for (const known of kept) this.#keptAt.set(known.seq, [...(this.#keptAt.get(known.seq) ?? []), known]);
    this.#sha = sha;
    this.#head = from;
  }

  /** One line further; says whether it is sound. Nothing is re-serialised: the stored text is hashed as it stands. */
  take(line: JournalLine): boolean {
    const found = this.#breaksAt(line);
    this.#breaks.push(...found);
    if (line.seq > this.#head.seq) this.#head = { seq: line.seq, link: line.link };
    return found.length === 0;
  }

  #breaksAt(line: JournalLine): readonly Break[] {
    const { seq } = line;
    const expected = this.#head.seq + 1;
    if (seq < expected) return [{ how: 'out-of-place', seq }];
    const breaks: Break[] = [];
    if (seq > expected) breaks.push({ how: 'missing', seq: expected, to: seq - 1 });
    if (line.withdrawn !== true && leafOf(line.text, this.#sha) !== line.leaf) breaks.push({ how: 'changed', seq });
    // After a gap, or after a link that is none, there is nothing to hold this line against; that is a finding already.
    else if (seq === expected && !this.#continues(line)) breaks.push({ how: 'unlinked', seq });
    if (this.#keptAt.get(seq)?.some((known) => known.link !== line.link) === true) breaks.push({ how: 'other-head', seq });
    return breaks;
  }

  #continues(line: JournalLine): boolean {
    return !HASH.test(this.#head.link) || linkOf(this.#head.link, line.leaf, this.#sha) === line.link;
  }

  end(): Walk {
    const short = this.#kept
      .filter((known) => known.seq > this.#head.seq)
      .map((known) => ({ how: 'short', seq: this.#head.seq + 1, to: known.seq }) as const);
    return { head: this.#head, breaks: [...this.#breaks, ...short] };
  }
}

const HASH = /^[0-9a-f]{64}$/;

/** Walks lines in order, from the beginning unless stated, and says where the chain ends and where and how it is broken. */
export const verify = (lines: Iterable<JournalLine>, kept: readonly Head[] = [], from: Head = EMPTY): Walk => {
  const walk = new ChainWalk(kept, from);
  for (const line of lines) walk.take(line);
  return walk.end();
};
