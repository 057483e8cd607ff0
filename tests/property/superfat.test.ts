import { describe, expect, it } from 'vitest';
import { coverage, isCalibrated, reliability, scoreOf } from '#tests/benchmark/calibration/superfat/score';

/** A small run of `npm run calibration:superfat`, always the same batches. The limit is for what never ends: busy machines are slow. */
const LONG = 300_000;
const BATCHES = 240;

describe('superfat as poured, on simulated batches', () => {
  const all = scoreOf(BATCHES, 40_000);

  it('lies in its interval 95 times in 100, as far as so few can tell', { timeout: LONG }, () => {
    // Four standard deviations of 240 draws at 95 %: 5.6 points.
    expect(Math.abs(coverage(all) - 0.95)).toBeLessThan(0.056);
    expect(all.every(({ worst, low, high }) => worst.low <= low + 0.01 && worst.high >= high - 0.01)).toBe(true);
  });

  it('is lye-heavy as often as was said', { timeout: LONG }, () => {
    const bins = reliability(all);
    expect(bins.filter((bin) => !isCalibrated(bin))).toEqual([]);
    expect(bins.filter(({ count }) => count > 0).length).toBeGreaterThan(4);
  });

  it('an interval half as wide, and chances turned round, would be found out', () => {
    const narrow = all.map((one) => {
      const middle = (one.low + one.high) / 2;
      return { ...one, low: (one.low + middle) / 2, high: (one.high + middle) / 2 };
    });
    expect(coverage(narrow)).toBeLessThan(0.8);
    const turned = reliability(all.map((one) => ({ ...one, lyeHeavy: 1 - one.lyeHeavy })));
    expect(turned.every(isCalibrated)).toBe(false);
  });
});
