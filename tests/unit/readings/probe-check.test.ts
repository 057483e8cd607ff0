import { describe, expect, it } from 'vitest';
import { boilingMilli, checkFaults, checkId, correctionOf } from '#lib/measure/probe/check';
import type { ProbeCheck } from '#lib/measure/probe/check';
import { as } from '#lib/units/id';
import { milliCelsius as mc } from '#lib/units/temperature';
import { checkDocument } from '#lib/work/shelf/check';
import { probeCheckOf } from '#lib/work/shelf/context';
import { EMPTY_SHELF, withPut } from '#lib/work/shelf/shelf';

const sea = boilingMilli(0);
if (sea === null) throw new Error('water boils at sea level');
const ice = { shown: mc(400), is: mc(0) };
const boiling = { shown: mc(99_000), is: sea, metres: 0 };

const context = (): never => {
  throw new Error('a probe needs nothing of the workshop');
};

describe('what a probe is corrected by', () => {
  it('is nothing before it was checked, one offset after one point, a line after two', () => {
    expect(correctionOf({ ice: null, boiling: null }, mc(43_000))).toBe(0);
    expect(correctionOf({ ice, boiling: null }, mc(43_000))).toBe(-400);
    expect(correctionOf({ ice: null, boiling }, mc(43_000))).toBe(974);
    expect(correctionOf({ ice, boiling }, ice.shown)).toBe(-400);
    expect(correctionOf({ ice, boiling }, boiling.shown)).toBe(974);
    // Half way between what it showed at both: half way between what it was off.
    expect(correctionOf({ ice, boiling }, mc(49_700))).toBe(287);
    expect(correctionOf({ ice, boiling }, mc(-9_600))).toBe(-539);
  });

  it('is refused when it is more than a probe may be off, or at no such point', () => {
    expect(checkFaults({ ice, boiling })).toEqual([]);
    expect(checkFaults({ ice: { shown: mc(5_001), is: mc(0) }, boiling: null })).toEqual([['ice', 'too-far-off']]);
    expect(checkFaults({ ice: { shown: mc(5_001), is: mc(5_000) }, boiling: null })).toEqual([['ice', 'not-its-point']]);
    expect(checkFaults({ ice: null, boiling: { ...boiling, metres: 1_500 } })).toEqual([['boiling', 'not-its-point']]);
    expect(boilingMilli(6_001)).toBeNull();
  });

  it('is kept as a document: where it is wrong is said in words, and the newest stands for its probe and place alone', () => {
    const check: ProbeCheck = { id: checkId(as('probe-board'), 'lye'), instrument: as('probe-board'), use: 'lye', ice, boiling: null };
    expect(checkDocument('probe', check.id, check as never, context)).toEqual([]);
    const wrong = { ...check, ice: { shown: 6_000, is: 0 } };
    expect(checkDocument('probe', check.id, wrong as never, context)).toMatchObject([{ path: 'ice' }]);
    expect(checkDocument('probe', check.id, { ...check, ice: { shown: 0.5, is: 0 } } as never, context)).toMatchObject([
      { path: 'ice.shown' },
    ]);
    const put = (document: object | null, version: number) =>
      ({ noun: 'probe', id: check.id, version, document: document as never, note: '' }) as const;
    const shelf = withPut(EMPTY_SHELF, put(check, 1), as('maker'), 5);
    expect(probeCheckOf(shelf, as('probe-board'), 'lye')).toEqual(check);
    expect(probeCheckOf(shelf, as('probe-board'), 'oils')).toBeNull();
    expect(probeCheckOf(withPut(shelf, put(null, 2), as('maker'), 6), as('probe-board'), 'lye')).toBeNull();
  });
});
