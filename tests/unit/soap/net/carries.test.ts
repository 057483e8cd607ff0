import { describe, expect, it } from 'vitest';
import { seededNumbers } from '#lib/soap/shrink/index';
import { checkByAverage, labelItCarries } from '#lib/soap/net/index';

const ask = { confidence: 0.95, left: 1, step: 1 } as const;

/** Sum of twelve even numbers: near enough to normal, and none of the program's own. */
const lotOf = (count: number, mean: number, deviation: number, uniform: () => number): number[] =>
  Array.from({ length: count }, () => mean + deviation * (Array.from({ length: 12 }, uniform).reduce((a, b) => a + b, 0) - 6));

describe('the label weight a lot can carry', () => {
  it('is its mean where every bar was weighed and none is light', () => {
    expect(labelItCarries({ ...ask, weights: Array.from({ length: 60 }, () => 121.4), lot: 60 })).toMatchObject({
      label: 121,
      by: 'mean',
      whole: true,
    });
  });

  it('goes down with what is still lost', () => {
    expect(labelItCarries({ ...ask, weights: Array.from({ length: 60 }, () => 121.4), lot: 60, left: 0.9 })?.label).toBe(109);
  });

  it('is held down by one light bar', () => {
    const weights = [...Array.from({ length: 59 }, () => 121.4), 100];
    const carries = labelItCarries({ ...ask, weights, lot: 60 });
    // TNE of 110 g is 5 g, of 111 g 5.0.
    expect(carries).toMatchObject({ label: 110, by: 'twice-tne' });
    expect(checkByAverage({ nominal: 110, weights, lot: 60 }).verdict).toBe('passes');
    expect(checkByAverage({ nominal: 111, weights, lot: 60 }).verdict).toBe('fails');
  });

  it('is not said from too few', () => {
    expect(labelItCarries({ ...ask, weights: [120, 121, 122, 121], lot: 60 })).toBeNull();
    expect(labelItCarries({ ...ask, weights: [], lot: 60 })).toBeNull();
  });

  it('passes the reference test of the whole lot at least as often as said', () => {
    const uniform = seededNumbers(7);
    const rounds = 400;
    let passed = 0;
    for (let round = 0; round < rounds; round += 1) {
      const weights = lotOf(60, 115 + 10 * uniform(), 0.5 + 2 * uniform(), uniform);
      const carries = labelItCarries({ ...ask, weights: weights.slice(0, 12), lot: 60, step: 0.1 });
      if (carries !== null && checkByAverage({ nominal: carries.label, weights, lot: 60 }).verdict === 'passes') passed += 1;
    }
    expect(passed / rounds).toBeGreaterThan(0.93);
    // Carried too low it would always pass and be of no use.
    expect(passed / rounds).toBeLessThan(0.995);
  });
});
