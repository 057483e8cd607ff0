import { describe, expect, it } from 'vitest';
import { checkByAverage, checkByHandbook, checkScale, checkScaleByHandbook } from '#lib/soap/net/index';

const bars = (count: number, weight: number): number[] => Array.from({ length: count }, () => weight);
/** A spread of one gram either way about a mean, evenly. */
const spread = (count: number, mean: number): number[] => Array.from({ length: count }, (_, i) => mean + (i % 2 === 0 ? 1 : -1));
const stepOf = <K extends string>(steps: readonly { readonly kind: string }[], kind: K) =>
  steps.find((step): step is { readonly kind: K } & Record<string, unknown> => step.kind === kind);

const fifty = (light: number) => [...bars(50 - light, 125), ...bars(light, 114)];
const sixty = (light: number) => [...bars(60 - light, 122), ...bars(light, 114.5)];

describe('the average system, under 100 bars', () => {
  it('wants every bar weighed before it says that a lot passes', () => {
    expect(checkByAverage({ nominal: 120, weights: bars(59, 121), lot: 60 }).verdict).toBe('not-enough');
    expect(checkByAverage({ nominal: 120, weights: bars(60, 121), lot: 60 }).verdict).toBe('passes');
    expect(checkByAverage({ nominal: 120, weights: [], lot: 60 }).verdict).toBe('not-enough');
  });

  it('allows no factor on the mean', () => {
    expect(checkByAverage({ nominal: 120, weights: spread(60, 120), lot: 60 }).verdict).toBe('passes');
    const { verdict, steps } = checkByAverage({ nominal: 120, weights: spread(60, 119.9), lot: 60 });
    expect(verdict).toBe('fails');
    expect(stepOf(steps, 'mean')).toMatchObject({ factor: 0, limit: 120, holds: false });
  });

  it('allows 5 in 100 below Qn − TNE, and says when they are more than packers are advised', () => {
    // TNE of 120 g is 5.4 g: below 114.6.
    expect(stepOf(checkByAverage({ nominal: 120, weights: sixty(3), lot: 60 }).steps, 'below-tne')).toMatchObject({
      limit: 114.6,
      found: 3,
      allowed: 3,
      holds: true,
    });
    expect(checkByAverage({ nominal: 120, weights: sixty(3), lot: 60 }).verdict).toBe('passes');
    expect(stepOf(checkByAverage({ nominal: 120, weights: sixty(3), lot: 60 }).steps, 'guidance')).toMatchObject({
      allowed: 1,
      holds: false,
    });
    expect(checkByAverage({ nominal: 120, weights: sixty(4), lot: 60 }).verdict).toBe('fails');
  });

  it('allows none below Qn − 2·TNE, however few were weighed', () => {
    expect(checkByAverage({ nominal: 120, weights: [...bars(59, 125), 109.1], lot: 60 }).verdict).toBe('fails');
    expect(checkByAverage({ nominal: 120, weights: [109.1], lot: 60 }).verdict).toBe('fails');
    expect(checkByAverage({ nominal: 120, weights: [...bars(59, 125), 109.2], lot: 60 }).verdict).toBe('passes');
  });
});

describe('the average system, from 100 bars', () => {
  it('samples by the plan and looks at the mean of the first thirty with its factor', () => {
    const weights = [...spread(30, 119.6), ...bars(20, 140)];
    const { verdict, steps } = checkByAverage({ nominal: 120, weights, lot: 100 });
    const s = Math.sqrt(30 / 29);
    expect(stepOf(steps, 'mean')).toMatchObject({ of: 30, factor: 0.503, holds: true });
    expect(stepOf(steps, 'mean')?.['limit']).toBeCloseTo(120 - 0.503 * s, 9);
    expect(verdict).toBe('passes');
    expect(checkByAverage({ nominal: 120, weights: [...spread(30, 119.4), ...bars(20, 140)], lot: 100 }).verdict).toBe('fails');
  });

  it('is rejected with one defective more than accepted', () => {
    expect(checkByAverage({ nominal: 120, weights: fifty(3), lot: 500 }).verdict).toBe('passes');
    expect(checkByAverage({ nominal: 120, weights: fifty(4), lot: 500 }).verdict).toBe('fails');
    expect(checkByAverage({ nominal: 120, weights: bars(49, 125), lot: 100 }).verdict).toBe('not-enough');
    expect(checkByAverage({ nominal: 120, weights: bars(79, 125), lot: 501 }).verdict).toBe('not-enough');
  });

  it('refuses what cannot be weighed or is outside its scope', () => {
    expect(() => checkByAverage({ nominal: 4, weights: [5], lot: 1 })).toThrow(/5 to 10000/);
    expect(() => checkByAverage({ nominal: 120, weights: [Number.NaN], lot: 1 })).toThrow(/net weight/);
    expect(() => checkByAverage({ nominal: 120, weights: bars(3, 120), lot: 2 })).toThrow(/more bars/);
  });
});

describe('Handbook 133, category A', () => {
  it('corrects the mean error of twelve of a lot', () => {
    const weights = spread(12, 119.5);
    const { verdict, steps } = checkByHandbook({ nominal: 120, weights, lot: 60 });
    expect(stepOf(steps, 'mean')).toMatchObject({ of: 12, factor: 0.635 });
    expect(stepOf(steps, 'mean')?.['errorLimit']).toBeCloseTo(0.635 * Math.sqrt(12 / 11), 9);
    expect(verdict).toBe('passes');
    expect(checkByHandbook({ nominal: 120, weights: spread(12, 119.3), lot: 60 }).verdict).toBe('fails');
  });

  it('allows no bar beyond the allowable variation', () => {
    expect(checkByHandbook({ nominal: 120, weights: [...bars(11, 125), 110.9], lot: 60 }).verdict).toBe('fails');
    expect(checkByHandbook({ nominal: 120, weights: [...bars(11, 125), 111], lot: 60 }).verdict).toBe('passes');
  });

  it('says what it cannot say', () => {
    expect(checkByHandbook({ nominal: 120, weights: bars(11, 125), lot: 60 }).verdict).toBe('not-enough');
    expect(checkByHandbook({ nominal: 1000, weights: bars(12, 1001), lot: 60 }).verdict).toBe('not-known');
    expect(checkByHandbook({ nominal: 120, weights: [120], lot: 1 }).verdict).toBe('passes');
    expect(checkByHandbook({ nominal: 120, weights: [119.9], lot: 1 }).verdict).toBe('fails');
  });
});

describe('the scale first', () => {
  it('takes at most a fifth of the tolerable error', () => {
    // 0.2 × 5.4 g.
    expect(checkScale({ step: 1, off: 0 }, 120)).toMatchObject({ verdict: 'good', error: 0.75 });
    expect(checkScale({ step: 1, off: -0.4 }, 120).verdict).toBe('not-good');
    expect(checkScale({ step: 2, off: 0 }, 120).verdict).toBe('not-good');
    expect(checkScale({ step: 0.1, off: null }, 120)).toMatchObject({ verdict: 'not-known', error: null });
    expect(checkScaleByHandbook({ step: 1, off: 0 }, 120)?.most).toBeCloseTo(1.5, 9);
    expect(checkScaleByHandbook({ step: 1, off: 0 }, 1000)).toBeNull();
  });
});
