import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { NotCanonical } from '#lib/record/canonical';
import { RepeatedIntent } from '#lib/record/journal';
import type { Journal } from '#lib/record/journal';
import { EMPTY } from '#lib/record/seal';
import { verify } from '#lib/record/verify';
import { appendOf, blobOf, entryOf } from './appends';

/** What every journal promises, whatever it is kept in. */
export const journalContract = (name: string, open: () => Promise<{ journal: Journal; close: () => Promise<void> }>): void => {
  describe(`journal contract: ${name}`, () => {
    let journal: Journal;
    let close: () => Promise<void>;
    beforeEach(async () => ({ journal, close } = await open()));
    afterEach(() => close());

    const nothingWritten = async (seq = 0): Promise<void> => {
      expect(journal.seq()).toBe(seq);
      expect(await journal.lines(seq, 10)).toEqual([]);
    };

    it('is empty at first', async () => {
      expect(journal.link()).toBe(EMPTY.link);
      await nothingWritten();
    });

    it('numbers from 1, seals, and hands back the lines as stored', async () => {
      const first = await journal.append(appendOf([entryOf('a', 1), entryOf('a', 2)]));
      const second = await journal.append(appendOf([entryOf('b', 1)]));
      const all = await journal.lines(0, 10);
      expect(all).toEqual([...first, ...second]);
      expect(all.map((line) => line.seq)).toEqual([1, 2, 3]);
      expect(verify(all)).toEqual({ head: { seq: journal.seq(), link: journal.link() }, breaks: [] });
    });

    it('stores RFC 8785 text with a salt of 16 bytes that never repeats', async () => {
      await journal.append(appendOf([entryOf('a', 1, { z: 1, text: 'ö😀\u0000\u2028' }), entryOf('a', 2, { z: 1, text: 'ö😀' })]));
      const lines = await journal.lines(0, 10);
      const salts = lines.map(({ text }) => (JSON.parse(text) as { salt: string }).salt);
      expect(lines[0]?.text).toBe(
        String.raw`{"batch":"a","id":"a-1","kind":"noted","salt":"${salts[0] ?? ''}","text":"ö😀\u0000` + `\u2028","version":1,"z":1}`,
      );
      expect(salts[0]).toMatch(/^[0-9a-f]{32}$/);
      expect(salts[0]).not.toBe(salts[1]);
    });

    it('pages: after a number, at most so many', async () => {
      await journal.append(appendOf([1, 2, 3, 4, 5].map((n) => entryOf('a', n))));
      expect((await journal.lines(1, 2)).map((line) => line.seq)).toEqual([2, 3]);
      expect(await journal.lines(5, 2)).toEqual([]);
    });

    it('finds the lines of one batch, in order', async () => {
      await journal.append(appendOf([entryOf('a', 1), entryOf('b', 1), entryOf(null, null, { n: 1 }), entryOf('a', 2)]));
      expect((await journal.linesOf('a')).map((line) => line.seq)).toEqual([1, 4]);
      expect(await journal.linesOf('c')).toEqual([]);
    });

    it('answers a repeated intent with what was answered first, and writes nothing', async () => {
      await journal.append(appendOf([entryOf('a', 1)], { intent: { id: 'i', answer: { ok: true, version: 1 } } }));
      const again = journal.append(appendOf([entryOf('a', 2)], { intent: { id: 'i', answer: { ok: false } }, blobs: [blobOf('x')] }));
      await expect(again).rejects.toThrow(RepeatedIntent);
      await expect(again).rejects.toMatchObject({ answer: { ok: true, version: 1 } });
      await nothingWritten(1);
      expect((await journal.linesOf('a')).length).toBe(1);
      expect(await journal.answerTo('i')).toEqual({ ok: true, version: 1 });
    });

    it('keeps the answer of an intent that wrote no entry', async () => {
      await journal.append(appendOf([], { intent: { id: 'refused', answer: { ok: false, code: 'away' } } }));
      expect(await journal.answerTo('refused')).toEqual({ ok: false, code: 'away' });
      expect(await journal.answerTo('unknown')).toBeNull();
      await nothingWritten();
    });

    it('refuses a second entry with the same id, or the same version of a batch, and writes nothing of that append', async () => {
      await journal.append(appendOf([entryOf('a', 1)]));
      const sameVersion = { ...entryOf('a', 1), id: 'other', value: { id: 'other', batch: 'a', version: 1, kind: 'noted' } };
      for (const entry of [entryOf('a', 1), sameVersion]) {
        const twice = appendOf([entryOf('a', 2), entry], { intent: { id: 'i', answer: null } });
        await expect(journal.append(twice)).rejects.toThrow(Error);
        await nothingWritten(1);
        expect(await journal.answerTo('i')).toBeNull();
      }
      await journal.append(appendOf([entryOf('a', 2)], { intent: { id: 'i', answer: null } }));
      expect(journal.seq()).toBe(2);
    });

    it.each([
      ['a fraction', { ...entryOf('a', 1), value: { id: 'a-1', batch: 'a', version: 1, kind: 'noted', n: 0.5 } }],
      ['a batch the value does not say', { ...entryOf('a', 1), value: { id: 'a-1', batch: 'b', version: 1, kind: 'noted' } }],
      ['no object', { ...entryOf('a', 1), value: 'text' }],
    ])('refuses %s and writes nothing', async (_, entry) => {
      await expect(journal.append(appendOf([entry]))).rejects.toThrow(NotCanonical);
      await nothingWritten();
    });

    it('refuses bytes that do not hash to their name', async () => {
      const wrong = { ...blobOf('x'), sha256: blobOf('y').sha256 };
      await expect(journal.append(appendOf([entryOf('a', 1)], { blobs: [wrong] }))).rejects.toThrow(NotCanonical);
      await nothingWritten();
    });

    it('takes the same bytes twice', async () => {
      await journal.append(appendOf([entryOf('a', 1)], { blobs: [blobOf('x')] }));
      await journal.append(appendOf([entryOf('a', 2)], { blobs: [blobOf('x')] }));
      expect(journal.seq()).toBe(2);
    });

    it('keeps appends apart that are asked for at once', async () => {
      await Promise.all([1, 2, 3, 4, 5, 6].map((n) => journal.append(appendOf([entryOf(`b${n}`, 1), entryOf(`b${n}`, 2)]))));
      const lines = await journal.lines(0, 100);
      expect(verify(lines).breaks).toEqual([]);
      expect(lines.length).toBe(12);
    });
  });
};
