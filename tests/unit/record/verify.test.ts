import { describe, expect, it } from 'vitest';
import type { JournalLine } from '#lib/record/journal';
import { EMPTY, leafOf, linkOf, seal, SALT_BYTES } from '#lib/record/seal';
import { ChainWalk, verify } from '#lib/record/verify';
import { at, chainOf } from '#tests/support/chain';

const relink = (lines: readonly JournalLine[]): JournalLine[] => {
  let previous = EMPTY.link;
  return lines.map((line, i) => {
    const leaf = leafOf(line.text);
    previous = linkOf(previous, leaf);
    return { seq: i + 1, text: line.text, leaf, link: previous };
  });
};

describe('verify', () => {
  const lines = chainOf(6);
  const head = at(lines, 5);

  it('finds nothing wrong with a sound chain and says where it ends', () => {
    expect(verify(lines, [head])).toEqual({ head: { seq: 6, link: head.link }, breaks: [] });
    expect(verify([])).toEqual({ head: EMPTY, breaks: [] });
  });

  it('changed: the text is not what its leaf says', () => {
    const changed = lines.with(2, { ...at(lines, 2), text: at(lines, 2).text.replace('"n":3', '"n":8') });
    expect(verify(changed).breaks).toEqual([{ how: 'changed', seq: 3 }]);
  });

  it('unlinked: text and leaf were changed together', () => {
    const text = at(lines, 2).text.replace('"n":3', '"n":8');
    expect(verify(lines.with(2, { ...at(lines, 2), text, leaf: leafOf(text) })).breaks).toEqual([{ how: 'unlinked', seq: 3 }]);
  });

  it('unlinked, one line on: text, leaf and link were changed together', () => {
    const forged = seal(at(lines, 1), { id: 'forged' }, new Uint8Array(SALT_BYTES));
    expect(verify(lines.with(2, forged)).breaks).toEqual([{ how: 'unlinked', seq: 4 }]);
  });

  it('missing: a line was taken out', () => {
    expect(verify(lines.toSpliced(1, 2)).breaks).toEqual([{ how: 'missing', seq: 2, to: 3 }]);
  });

  it('unlinked: a line was taken out and the rest counted anew', () => {
    const renumbered = lines.toSpliced(1, 1).map((line, i) => ({ ...line, seq: i + 1 }));
    expect(verify(renumbered).breaks).toEqual([{ how: 'unlinked', seq: 2 }]);
  });

  it('out of place: a line stands twice', () => {
    expect(verify(lines.toSpliced(3, 0, at(lines, 2))).breaks).toEqual([{ how: 'out-of-place', seq: 3 }]);
  });

  it('short: the tail was cut off, found against a head only', () => {
    expect(verify(lines.slice(0, 4)).breaks).toEqual([]);
    expect(verify(lines.slice(0, 4), [head]).breaks).toEqual([{ how: 'short', seq: 5, to: 6 }]);
  });

  it('other head: everything from one line on was written anew, found against a head only', () => {
    const rewritten = relink(lines.with(3, { ...at(lines, 3), text: '{"id":"other"}' }));
    expect(verify(rewritten).breaks).toEqual([]);
    expect(verify(rewritten, [head]).breaks).toEqual([{ how: 'other-head', seq: 6 }]);
  });

  it('walks in pieces as in one', () => {
    const walk = new ChainWalk([head], at(lines, 2));
    for (const line of lines.slice(3)) walk.take(line);
    expect(walk.end()).toEqual(verify(lines, [head]));
  });
});
