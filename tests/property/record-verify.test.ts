import fc from '#tests/support/property';
import { describe, expect, it } from 'vitest';
import type { JournalLine } from '#lib/record/journal';
import { EMPTY, leafOf, linkOf, seal, SALT_BYTES } from '#lib/record/seal';
import type { Head } from '#lib/record/seal';
import { verify } from '#lib/record/verify';
import { at, chainOf } from '#tests/support/chain';

type Lines = readonly JournalLine[];

/** Hashes and numbers made anew from a line on, as someone would who wants a change to go unseen. */
const reforged = (lines: Lines, from: number): Lines => {
  let head: Head = from === 0 ? EMPTY : at(lines, from - 1);
  return lines.map((line, i) => {
    if (i < from) return line;
    const leaf = leafOf(line.text);
    head = { seq: i + 1, link: linkOf(head.link, leaf) };
    return { seq: head.seq, text: line.text, leaf, link: head.link };
  });
};

const flipped = (text: string, where: number): string => {
  const i = where % text.length;
  return text.slice(0, i) + String.fromCodePoint(text.charCodeAt(i) ^ 1) + text.slice(i + 1);
};

/** Everything that can be done to a stored chain by hand; `i` and `j` choose where. */
const HARM: Readonly<Record<string, (lines: Lines, i: number, j: number) => Lines>> = {
  'change a text': (lines, i, j) => lines.with(i, { ...at(lines, i), text: flipped(at(lines, i).text, j) }),
  'change a leaf': (lines, i, j) => lines.with(i, { ...at(lines, i), leaf: flipped(at(lines, i).leaf, j) }),
  'change a link': (lines, i, j) => lines.with(i, { ...at(lines, i), link: flipped(at(lines, i).link, j) }),
  'change a number': (lines, i, j) => lines.with(i, { ...at(lines, i), seq: at(lines, i).seq + 1 + (j % 3) }),
  'change a text and its leaf': (lines, i, j) => {
    const text = flipped(at(lines, i).text, j);
    return lines.with(i, { ...at(lines, i), text, leaf: leafOf(text) });
  },
  'change a text and make everything after it anew': (lines, i, j) =>
    reforged(lines.with(i, { ...at(lines, i), text: flipped(at(lines, i).text, j) }), i),
  'take a line out': (lines, i) => lines.toSpliced(i, 1),
  'take a line out and make the rest anew': (lines, i) => reforged(lines.toSpliced(i, 1), i),
  'put a line in': (lines, i) =>
    lines.toSpliced(i, 0, seal(i === 0 ? EMPTY : at(lines, i - 1), { id: 'put in' }, new Uint8Array(SALT_BYTES))),
  'put a line in and make the rest anew': (lines, i) =>
    reforged(lines.toSpliced(i, 0, seal(EMPTY, { id: 'put in' }, new Uint8Array(SALT_BYTES))), i),
  'let a line stand twice': (lines, i) => lines.toSpliced(i, 0, at(lines, i)),
  'swap two lines': (lines, i, j) => swapped(lines, i, j % lines.length),
  'swap two lines and make the rest anew': (lines, i, j) => reforged(swapped(lines, i, j % lines.length), Math.min(i, j % lines.length)),
  'cut the tail off': (lines, i) => lines.slice(0, i),
};

const swapped = (lines: Lines, i: number, j: number): Lines => lines.with(i, at(lines, j)).with(j, at(lines, i));

const same = (a: Lines, b: Lines): boolean => JSON.stringify(a) === JSON.stringify(b);

describe('verify', () => {
  it.each(Object.entries(HARM))('finds against a head: %s', (_, harm) => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 12 }), fc.nat(), fc.nat(), (length, where, j) => {
        const lines = chainOf(length);
        const harmed = harm(lines, where % length, j);
        fc.pre(!same(harmed, lines));
        expect(verify(harmed, [at(lines, length - 1)]).breaks).not.toEqual([]);
      }),
    );
  });

  it('finds nothing in a sound chain, held against any of its heads', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 12 }), fc.nat(), (length, where) => {
        const lines = chainOf(length);
        expect(verify(lines, [at(lines, where % length)]).breaks).toEqual([]);
      }),
    );
  });

  it('names the first line that was touched, when hashes were left alone', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 12 }), fc.nat(), fc.nat(), (length, where, j) => {
        const i = where % length;
        const lines = chainOf(length);
        const harmed = lines.with(i, { ...at(lines, i), text: flipped(at(lines, i).text, j) });
        expect(verify(harmed).breaks).toEqual([{ how: 'changed', seq: i + 1 }]);
      }),
    );
  });
});
