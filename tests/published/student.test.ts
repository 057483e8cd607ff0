import { describe, expect, it } from 'vitest';
import { normalQuantile, studentQuantile } from '#lib/soap/net/student';
import { statistics } from '#tests/support/second-opinion';

const SHARES = [0.6, 0.9, 0.95, 0.975, 0.99, 0.995, 0.9999];

describe('quantiles, by a statistics library', () => {
  it.each([1, 2, 3, 4, 9, 11, 19, 29, 49, 79, 124, 1000])('of Student’s t with %d degrees of freedom', (freedom) => {
    for (const share of SHARES) {
      const theirs = statistics.studentt.inv(share, freedom);
      expect(Math.abs(studentQuantile(share, freedom) / theirs - 1), `${share}`).toBeLessThan(1e-6);
      expect(studentQuantile(1 - share, freedom)).toBeCloseTo(-studentQuantile(share, freedom), 9);
    }
  });

  it('of the normal distribution', () => {
    for (const share of [...SHARES, 0.0001, 0.05, 0.3]) expect(normalQuantile(share)).toBeCloseTo(statistics.normal.inv(share, 0, 1), 7);
    expect(() => normalQuantile(1)).toThrow(RangeError);
    expect(() => studentQuantile(0.9, 0)).toThrow(RangeError);
  });
});
