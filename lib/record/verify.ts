import type { JournalLine } from './journal';
import { EMPTY, leafOf, linkOf } from './seal';
import type { Head } from './seal';

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

/** One line further. Nothing is re-serialised: the stored text is hashed as it stands. */
export const step = (head: Head, line: JournalLine): Walk => {
  const expected = head.seq + 1;
  if (line.seq < expected) return { head, breaks: [{ how: 'out-of-place', seq: line.seq }] };
  const breaks: Break[] = [];
  if (line.seq > expected) breaks.push({ how: 'missing', seq: expected, to: line.seq - 1 });
  if (leafOf(line.text) !== line.leaf) breaks.push({ how: 'changed', seq: line.seq });
  // After a gap there is no link to hold this line against; the gap itself is the finding.
  else if (line.seq === expected && linkOf(head.link, line.leaf) !== line.link) breaks.push({ how: 'unlinked', seq: line.seq });
  return { head: { seq: line.seq, link: line.link }, breaks };
};

/**
 * Walks lines in order from `from` (the beginning, unless stated). `kept` are heads known from elsewhere: without one, a
 * tail cut off or written anew whole cannot be found, by anybody.
 */
export const verify = (lines: Iterable<JournalLine>, kept: readonly Head[] = [], from: Head = EMPTY): Walk => {
  let head = from;
  const breaks: Break[] = [];
  const heads = new Map(kept.map((known) => [known.seq, known.link]));
  for (const line of lines) {
    const next = step(head, line);
    head = next.head;
    breaks.push(...next.breaks);
    const known = heads.get(line.seq);
    if (known !== undefined && known !== line.link) breaks.push({ how: 'other-head', seq: line.seq });
  }
  for (const known of kept) {
    if (known.seq > head.seq) breaks.push({ how: 'short', seq: head.seq + 1, to: known.seq });
  }
  return { head, breaks };
};
