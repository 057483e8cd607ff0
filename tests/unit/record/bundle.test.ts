import { describe, expect, it } from 'vitest';
import { checkBundle } from '#lib/record/bundle/check';
import type { BundleFinding } from '#lib/record/bundle/check';
import { chainText, PARTS, readChain, sumsText } from '#lib/record/bundle/layout';
import { sealedNote } from '#lib/record/bundle/sealed';
import type { ChainRow } from '#lib/record/bundle/layout';
import type { JournalLine, Json } from '#lib/record/journal';
import { keyLine, signedNote } from '#lib/record/note';
import type { Checkpoint } from '#lib/record/note';
import { wordsOf } from '#lib/record/words';
import { EMPTY, leafOf, linkOf, seal, SALT_BYTES } from '#lib/record/seal';
import { ed25519 } from '#server/store/ed25519';
import { hashOf } from '#server/store/sums';
import { inWords } from '#server/verify/words';
import { testKey } from '#tests/support/keys';
import type { TestKey } from '#tests/support/keys';

const ORIGIN = 'potwatch/0123456789abcdef/real/bench';
const OURS = testKey();

/** Ten lines: three of another batch, six of ours, one of another; heads at 3 and 10. */
const valueOf = (seq: number): Json =>
  seq > 3 && seq < 10
    ? { id: `e${seq}`, batch: 'ours', version: seq - 3, grams: 100 + seq }
    : { id: `e${seq}`, batch: 'other', version: seq };
const journal = (value: (seq: number) => Json = valueOf): JournalLine[] => {
  const lines: JournalLine[] = [];
  for (let seq = 1; seq <= 10; seq += 1) lines.push(seal(lines.at(-1) ?? EMPTY, value(seq), new Uint8Array(SALT_BYTES).fill(seq)));
  return lines;
};
const headAt = (lines: readonly JournalLine[], seq: number): Checkpoint => ({ origin: ORIGIN, seq, link: lines[seq - 1]?.link ?? '' });

interface Made {
  texts: string[];
  rows: ChainRow[];
  lines: readonly JournalLine[];
  keys: TestKey;
}
const made = (value?: (seq: number) => Json): Made => {
  const lines = journal(value);
  return {
    lines,
    texts: lines.slice(3, 9).map(({ text }) => text),
    rows: lines.slice(3).map(({ seq, leaf, link }) => ({ seq, leaf, link, what: seq < 10 ? 'own' : 'other' })),
    keys: OURS,
  };
};

const text = (of: string): Uint8Array => new TextEncoder().encode(of);

/** The parts with sums that fit, and a seal that does. */
const partsOf = ({ texts, rows, lines, keys }: Made, more: Record<string, string> = {}): Map<string, Uint8Array> => {
  const note = (seq: number): string => signedNote(headAt(lines, seq), keys.publicKey, (bytes) => keys.sign(bytes));
  const parts = new Map(
    Object.entries({
      [PARTS.entries]: texts.map((one) => `${one}\n`).join(''),
      [PARTS.chain]: chainText({ start: headAt(lines, 3), rows }),
      [PARTS.before]: note(3),
      [PARTS.after]: note(10),
      [PARTS.keys]: `${keyLine(ORIGIN, keys.publicKey)}\n`,
      ...more,
    }).map(([name, of]) => [name, text(of)] as const),
  );
  const sums = sumsText([...parts].map(([name, bytes]) => [name, hashOf(bytes)]));
  parts.set(PARTS.sums, text(sums));
  parts.set(PARTS.seal, text(sealedNote(ORIGIN, texts.length, sums, keys)));
  return parts;
};

const check = (parts: Map<string, Uint8Array>, heads: readonly Checkpoint[] = [], key: string | null = null) =>
  checkBundle(parts, { ed25519, sha256: hashOf }, { heads, key });
const findings = (of: Made, heads: readonly Checkpoint[] = []): readonly BundleFinding[] => check(partsOf(of), heads).findings;

/** Leaves and links made anew from the texts: what somebody would do who knows the format and has no key. */
const relinked = (of: Made): Made => {
  let link = of.lines[2]?.link ?? '';
  let at = 0;
  const rows = of.rows.map((row) => {
    const leaf = row.what === 'own' ? leafOf(of.texts[at++] ?? '') : row.leaf;
    link = linkOf(link, leaf);
    return { ...row, leaf, link };
  });
  return { ...of, rows };
};

const TAMPERED: readonly (readonly [name: string, (texts: string[]) => string[], BundleFinding])[] = [
  ['change', (all) => all.with(2, (all[2] ?? '').replace('106', '96')), { on: 'entries', found: { how: 'changed', entry: 3, seq: 6 } }],
  ['delete', (all) => all.toSpliced(2, 1), { on: 'entries', found: { how: 'deleted', seq: 6 } }],
  ['insert', (all) => all.toSpliced(2, 0, '{"id":"forged"}'), { on: 'entries', found: { how: 'inserted', entry: 3 } }],
  ['reorder', (all) => all.toSpliced(1, 2, all[2] ?? '', all[1] ?? ''), { on: 'entries', found: { how: 'moved', entry: 3, seq: 5 } }],
  ['truncate', (all) => all.slice(0, 4), { on: 'entries', found: { how: 'cut', seq: 8, to: 9 } }],
];

describe('a bundle', () => {
  it('is sound as it was made, and a kept head is met', () => {
    const of = made();
    const report = check(partsOf(of), [headAt(of.lines, 7)], keyLine(ORIGIN, OURS.publicKey));
    expect(report).toEqual({
      head: headAt(of.lines, 10),
      signer: { name: ORIGIN, publicKey: OURS.publicKey },
      entries: 6,
      withdrawn: 0,
      met: 1,
      findings: [],
    });
  });

  it.each(TAMPERED)('%s of its entries is found and named, and nothing else', (_, tamper, finding) => {
    const of = made();
    const found = findings({ ...of, texts: tamper(of.texts) });
    expect(found.filter(({ on }) => on !== 'versions')).toEqual([finding]);
    expect(inWords(finding)).toMatch(/(line|Entry|entry) \d/);
  });

  it.each(TAMPERED.filter(([name]) => name === 'change' || name === 'reorder'))(
    '%s with leaves and links made anew does not end in the signed head',
    (_, tamper) => {
      const of = made();
      expect(findings(relinked({ ...of, texts: tamper(of.texts) }))).toContainEqual({ on: 'chain', found: { how: 'other-head', seq: 10 } });
    },
  );

  it.each<[string, (rows: ChainRow[]) => ChainRow[], BundleFinding]>([
    ['change', (rows) => rows.with(1, { seq: 5, leaf: 'ee'.repeat(32), link: rows[1]?.link ?? '', what: 'other' }), broken('unlinked', 5)],
    ['delete', (rows) => rows.toSpliced(1, 1), { on: 'chain', found: { how: 'missing', seq: 5, to: 5 } }],
    [
      'insert',
      (rows) => rows.toSpliced(1, 0, { seq: 4, leaf: 'ee'.repeat(32), link: 'ee'.repeat(32), what: 'other' }),
      broken('out-of-place', 4),
    ],
    ['reorder', (rows) => [...rows.slice(0, 1), ...rows.slice(2, 3), ...rows.slice(1, 2), ...rows.slice(3)], broken('out-of-place', 5)],
    ['truncate', (rows) => rows.slice(0, 5), { on: 'chain', found: { how: 'short', seq: 9, to: 10 } }],
  ])('%s of its chain is found and named', (_, tamper, finding) => {
    const of = made();
    expect(findings({ ...of, rows: tamper(of.rows) })).toContainEqual(finding);
  });

  it('written anew whole, with a key and heads that fit, is found against a kept head and a known key, and by nothing else', () => {
    const kept = headAt(made().lines, 10);
    const forged = { ...made((seq) => (seq === 6 ? { id: 'e6', batch: 'ours', version: 3, grams: 96 } : valueOf(seq))), keys: testKey() };
    expect(findings(forged)).toEqual([]);
    expect(findings(forged, [kept])).toEqual([{ on: 'kept', checkpoint: kept, why: 'other-line' }]);
    expect(check(partsOf(forged), [], keyLine(ORIGIN, OURS.publicKey)).findings).toEqual([{ on: 'key' }]);
  });

  it('is held against the words of a head, as a label has them', () => {
    const of = made();
    const words = wordsOf(headAt(of.lines, 8).link);
    const tools = { ed25519, sha256: hashOf };
    expect(checkBundle(partsOf(of), tools, { heads: [], words: [words], key: null })).toMatchObject({ met: 1, findings: [] });
    const other = checkBundle(partsOf(of), tools, { heads: [], words: [`${words} acorn`], key: null });
    expect(other).toMatchObject({ met: 0, findings: [{ on: 'words', words: `${words} acorn` }] });
  });

  it('says when a kept head is of another record, or lies outside', () => {
    const of = made();
    const [other, outside] = [{ ...headAt(of.lines, 7), origin: 'potwatch/ffff/real/bench' }, headAt(of.lines, 2)];
    expect(findings(of, [other, outside])).toEqual([
      { on: 'kept', checkpoint: other, why: 'other-record' },
      { on: 'kept', checkpoint: outside, why: 'out-of-reach' },
    ]);
  });

  it('shows an entry that whoever made it passed off as another batch’s, by its version', () => {
    const of = made();
    const hidden = { ...of, texts: of.texts.toSpliced(2, 1), rows: of.rows.with(2, { ...(of.rows[2] as ChainRow), what: 'other' }) };
    expect(findings(hidden)).toEqual([{ on: 'versions', stream: 'ours', missing: [3] }]);
  });

  it('is sealed: newest entries passed off as another batch’s, or a page written anew, with sums that fit, are found', () => {
    const of = made();
    const { seal: name } = PARTS;
    const sound = partsOf(of, { [PARTS.page]: 'as it was' });
    const withSeal = (parts: Map<string, Uint8Array>, note: Uint8Array | undefined) => check(parts.set(name, note ?? text(''))).findings;
    const rows = of.rows.map((row): ChainRow => (row.seq > 7 ? { ...row, what: 'other' } : row));
    const cut = { ...of, texts: of.texts.slice(0, 4), rows };
    expect(findings(cut)).toEqual([]);
    expect(withSeal(partsOf(cut, { [PARTS.page]: 'as it was' }), sound.get(name))).toEqual([{ on: 'seal', why: 'changed' }]);
    expect(withSeal(partsOf(of, { [PARTS.page]: 'another' }), sound.get(name))).toEqual([{ on: 'seal', why: 'changed' }]);
    const forged = partsOf({ ...of, keys: testKey() }).get(name);
    expect(withSeal(partsOf(of), forged)).toEqual([{ on: 'seal', why: 'signature' }]);
    expect(withSeal(partsOf(of), undefined)).toEqual([{ on: 'seal', why: 'missing' }]);
  });

  it('is not signed with a known key that is only listed in it', () => {
    const of = { ...made(), keys: testKey() };
    const both = [OURS, of.keys].map(({ publicKey }) => keyLine(ORIGIN, publicKey)).join('\n');
    expect(check(partsOf(of, { [PARTS.keys]: `${both}\n` }), [], keyLine(ORIGIN, OURS.publicKey)).findings).toEqual([{ on: 'key' }]);
  });

  it('stands without the text of a withdrawn line, and says how many there are', () => {
    const of = made();
    const gone: Made = {
      ...of,
      texts: of.texts.toSpliced(2, 1),
      rows: of.rows.with(2, { ...(of.rows[2] as ChainRow), what: 'withdrawn' }),
    };
    expect(check(partsOf(gone))).toMatchObject({ entries: 5, withdrawn: 1, findings: [] });
  });

  it('finds a head nobody signed, a part that was changed, put in or taken out, bytes that are not those of their name', () => {
    const of = made();
    const unsigned = partsOf(of);
    unsigned.set(PARTS.keys, text(`${keyLine(ORIGIN, testKey().publicKey)}\n`));
    expect(check(unsigned).findings).toEqual([
      { on: 'part', name: PARTS.keys, why: 'changed' },
      { on: 'head', part: PARTS.after, why: 'signature' },
      { on: 'head', part: PARTS.before, why: 'signature' },
    ]);
    const parts = partsOf(of, { [`${PARTS.blobs}${'ab'.repeat(32)}`]: 'other bytes' });
    parts.set('extra.txt', text('x'));
    parts.delete(PARTS.before);
    expect(check(parts).findings).toEqual([
      { on: 'part', name: `${PARTS.blobs}${'ab'.repeat(32)}`, why: 'misnamed' },
      { on: 'part', name: 'extra.txt', why: 'unlisted' },
      { on: 'part', name: PARTS.before, why: 'missing' },
      { on: 'head', part: PARTS.before, why: 'start' },
    ]);
  });

  it.each(['', 'nonsense', '0 - 00 start', `1 ${'ab'.repeat(32)} ${'ab'.repeat(32)} own`])('takes no chain that reads %j', (of) => {
    expect(readChain(of)).toBe(1);
  });
});

function broken(how: 'unlinked' | 'out-of-place', seq: number): BundleFinding {
  return { on: 'chain', found: { how, seq } };
}
