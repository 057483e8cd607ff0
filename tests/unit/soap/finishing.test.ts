import { describe, expect, it } from 'vitest';
import { finishingLoss, type Finished } from '#lib/soap/finishing';

const look = (bars: number, before: number, after: number, how = 'planed'): Finished => ({ how, bars, before, after });

describe('what finishing takes off a bar', () => {
  it('is learned from ten bars, and before that said to be a beginning', () => {
    const bars = Array.from({ length: 10 }, (_, i) => look(1, 121 + i, 118 + i - (i % 2)));
    expect(finishingLoss(bars)).toMatchObject({ mean: 3.5, bars: 10, learned: true });
    expect(finishingLoss(bars.slice(0, 9))?.learned).toBe(false);
    expect(finishingLoss([])).toBeNull();
    expect(() => finishingLoss([look(1, 100, 101)])).toThrow(/heavier/);
    expect(() => finishingLoss([look(0, 100, 99)])).toThrow(/whole number/);
  });

  it('is no surer for bars weighed together: their mean hides how they differ', () => {
    const once = finishingLoss([look(10, 1210, 1175)]);
    expect(once).toMatchObject({ mean: 3.5, bars: 10 });
    // Half of 3.5 g, 90 in 100, and a tenth more for a bar to come.
    expect(once?.half).toBeCloseTo(1.645 * Math.hypot(0.5 * 3.5 * Math.sqrt(1.1), 1 / Math.sqrt(6) / 10), 3);
    // σ² = 10 (0.25² + 0.25²) / 1; t of one degree of freedom is 6.314 (any table of Student's t).
    const twice = finishingLoss([look(10, 1210, 1177.5), look(10, 1210, 1172.5)]);
    expect(twice?.mean).toBeCloseTo(3.5, 12);
    expect(twice?.half).toBeCloseTo(6.314 * Math.sqrt(1.25) * Math.sqrt(1.05), 1);
    // Looks that agree to the gram are known to what a gram lets see, not better.
    expect(finishingLoss([look(1, 121, 118), look(1, 120, 117)])?.half).toBeCloseTo((1.645 * 1) / Math.sqrt(6) / Math.SQRT2, 3);
  });

  it('is the sum of what is done one after the other', () => {
    const planed = [look(10, 1210, 1180), look(10, 1210, 1178)];
    const bevelled = [look(10, 1180, 1172, 'bevelled'), look(10, 1178, 1171, 'bevelled')];
    const [a, b, both] = [planed, bevelled, [...planed, ...bevelled]].map((looks) => finishingLoss(looks));
    expect(both?.mean).toBeCloseTo(3.1 + 0.75, 12);
    expect(both?.half).toBeCloseTo(Math.hypot(a?.half ?? 0, b?.half ?? 0), 12);
    expect(finishingLoss([...planed, look(5, 500, 495, 'stamped')])).toMatchObject({ bars: 5, learned: false });
  });
});
