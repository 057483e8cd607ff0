import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { GUARDED } from './list';
import { rowsOf, tableUnder } from './table';

const ROOT = join(import.meta.dirname, '../..');
const read = (file: string): string => readFileSync(join(ROOT, file), 'utf8');
const times = (text: string, piece: string): number => text.split(piece).length - 1;

/** Every failure that can happen to what is built so far. */
const CODES = 'A1 A2 A3 A4 A5 A6 A7 A8 A10 A11 A12 A13 B1 B2 B3 B4 B5 B6 B7 B8 B9 B10 B11 B12 B13 B17 B18 B20 B21 C2'.split(' ');

describe('field failures', () => {
  it('each has a test and a guard', () => {
    expect(GUARDED.map(({ code }) => code)).toEqual(CODES);
  });

  it.each(GUARDED)('$code: the test is there, named after it', ({ code, test }) => {
    expect(test.title.startsWith(`${code}: `)).toBe(true);
    expect(times(read(test.file), test.title)).toBe(1);
  });

  it.each(GUARDED)('$code: the guard stands where the list says, once', ({ guard }) => {
    const text = read(guard.file);
    for (const [piece] of guard.without) expect(times(text, piece), piece).toBe(1);
  });

  it('the table of DEVELOPERS.md says the same', () => {
    expect(tableUnder(read('DEVELOPERS.md'), '## Field failures and their tests')).toEqual(rowsOf(GUARDED));
  });
});
