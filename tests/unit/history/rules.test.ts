import { describe, expect, it } from 'vitest';
import { as } from '#lib/units/id';
import type { PersonId } from '#lib/units/id';
import { changeOf } from '#lib/work/history/change';
import { controlChart } from '#lib/work/history/chart';
import type { Rule } from '#lib/work/history/chart';
import { gainOf } from '#lib/work/history/gain';
import type { StopPoint } from '#lib/work/history/points';

/**
 * Values at so many standard deviations, behind a long quiet start that sets mean and scatter: 0.564 up and down in turn has the moving
 * range 1.128 of a standard deviation of one.
 */
const quiet = Array.from({ length: 400 }, (_, at) => (at % 2 === 0 ? 0.564 : -0.564));
const signalled = (...last: readonly number[]): readonly string[] => {
  const chart = controlChart([...quiet, ...last]);
  return (chart?.signals ?? [])
    .filter(({ at }) => at >= quiet.length)
    .map(({ rule, at, side }) => `${rule} ${side} at ${at - quiet.length}`);
};
const rulesOf = (...last: readonly number[]): readonly Rule[] => [...new Set(signalled(...last).map((said) => said.split(' ')[0] as Rule))];

const some = (count: number): readonly number[] => Array.from({ length: count }, () => 0.3);

describe('rules of the Western Electric handbook (1956)', () => {
  it('one point beyond three standard deviations', () => {
    expect(rulesOf(2.9)).toEqual([]);
    expect(rulesOf(3.05)).toEqual(['one-beyond-three']);
    expect(signalled(-3.2)).toEqual(['one-beyond-three below at 0']);
  });
  it('two of three beyond two, on the same side', () => {
    expect(rulesOf(2.2, 0.2, 2.2)).toEqual(['two-of-three-beyond-two']);
    expect(signalled(2.2, 2.2)).toEqual(['two-of-three-beyond-two above at 1']);
    expect(rulesOf(2.2, 0.2, 0.1, 2.2)).toEqual([]);
    expect(rulesOf(2.2, 0.2, -2.2)).not.toContain('two-of-three-beyond-two');
  });
  it('four of five beyond one, on the same side', () => {
    expect(signalled(1.2, 1.2, 0.2, 1.2, 1.2)).toEqual(['four-of-five-beyond-one above at 4']);
    expect(rulesOf(1.2, 1.2, 0.2, 0.2, 1.2, 1.2)).toEqual([]);
    expect(rulesOf(-1.2, -1.2, -1.2, -1.2)).toEqual(['four-of-five-beyond-one']);
  });
  it('eight in a row on one side of the mean, and no earlier', () => {
    expect(rulesOf(-0.1, ...some(7))).toEqual([]);
    expect(signalled(-0.1, ...some(8))).toEqual(['eight-on-one-side above at 8']);
    // Going on it is one signal, not one a batch.
    expect(signalled(-0.1, ...some(15))).toEqual(['eight-on-one-side above at 8']);
  });
  it('a jump of more than three and a quarter mean ranges between neighbours', () => {
    expect(rulesOf(1.9, -1.9)).toEqual(['range-beyond']);
    expect(rulesOf(1.6, -1.6)).toEqual([]);
  });
  it('says nothing of two values, nor of values that are all one', () => {
    expect(controlChart([1, 2])).toBeNull();
    expect(controlChart([4, 4, 4, 4, 4, 4, 4, 4, 4])).toMatchObject({ centre: 4, sigma: 0, signals: [] });
  });
});

const stop = (came: number, ended: number): StopPoint => ({
  hand: as<PersonId>('one'),
  material: 'Olive oil',
  came,
  ended,
  tolerance: 2000,
});

describe('whether the newest dozen moved', () => {
  it('by three standard errors of what neighbours differ, and not before there are a dozen on either side', () => {
    // Scatter of one standard deviation: the difference of 36 and 12 has a standard error of a third.
    const before = quiet.slice(0, 36);
    const shifted = (by: number): readonly number[] => [...before, ...quiet.slice(0, 12).map((value) => value + by)];
    expect(changeOf(shifted(0.9))).toBeNull();
    expect(changeOf(shifted(1.2))).toEqual({ newest: expect.closeTo(1.2, 9), before: expect.closeTo(0, 9), of: 12 });
    expect(changeOf(shifted(-1.2))?.newest).toBeCloseTo(-1.2, 9);
    expect(changeOf(shifted(5).slice(-23))).toBeNull();
  });
});

describe('what the word "ease off" was worth', () => {
  it('what came after it would have come on top of the target', () => {
    // 5.0, 4.0 and 1.5 g came after the word; the lines ended 0.4 over, 0.6 short and 2.5 g over.
    expect(gainOf([stop(5000, 400), stop(4000, -600), stop(1500, 2500)])).toEqual({
      pours: 3,
      came: 4000,
      off: 600,
      within: 2 / 3,
      withoutWithin: 1 / 3,
      gained: 3400,
    });
  });
  it('is nothing without pours', () => expect(gainOf([])).toBeNull());
});
