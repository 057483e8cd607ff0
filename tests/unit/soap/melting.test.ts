import { describe, expect, it } from 'vitest';
import { fatById } from '#lib/soap/fats/index';
import { fatHeatCapacity } from '#lib/soap/heat/fat';
import { meltingPlan, setsBelow } from '#lib/soap/melting';

const some = (id: string, grams: number) => ({ fat: fatById(id), grams });
const BLEND = [some('olive', 400), some('shea', 100), some('cocoa', 100), some('tallow', 250)];

describe('melting the fats of a batch', () => {
  it('begins with the hardest, past the end of its melting, and says it is practice', () => {
    const plan = meltingPlan(BLEND, 20, 40);
    expect(plan.order.map(({ fat }) => fat.id)).toEqual(['tallow', 'shea', 'cocoa']);
    expect(plan.heatTo).toBe(58);
    expect(plan.source.grade).toBe('practice');
  });

  it('says how warm the pot is once the liquid oils are in, and which fats may set in it', () => {
    const { afterwards, maySet } = meltingPlan(BLEND, 20, 40);
    expect(afterwards).toBeCloseTo((450 * 58 + 400 * 20) / 850, 0);
    expect(maySet.map(({ id }) => id)).toEqual(['tallow']);
  });

  it('says how warm the hard fats must be for a wished temperature, unless that is too hot', () => {
    const { pourAt } = meltingPlan(BLEND, 20, 45);
    expect(((pourAt ?? 0) * 450 + 400 * 20) / 850).toBeCloseTo(45, 0);
    expect(meltingPlan([some('olive', 900), some('cocoa', 100)], 20, 45).pourAt).toBeNull();
  });

  it('of liquid oils alone asks for nothing', () => {
    expect(meltingPlan([some('olive', 500)], 20, 40)).toMatchObject({ order: [], heatTo: null, afterwards: null, maySet: [] });
  });
});

describe('where a fat may begin to set', () => {
  it('is what the maker has seen, or the hardest fat that counts', () => {
    expect(setsBelow(BLEND, 31)).toBe(35);
    expect(setsBelow(BLEND, null)).toBe(48);
    expect(setsBelow([some('olive', 980), some('tallow', 20)], null)).toBeNull();
    expect(setsBelow([some('olive', 980)], null)).toBeNull();
  });
});

it('melted fat takes about half the heat of water, a little more when warm', () => {
  expect(fatHeatCapacity(20).value).toBeCloseTo(2.012, 3);
  expect(fatHeatCapacity(60).value).toBeGreaterThan(fatHeatCapacity(20).value);
  expect(() => fatHeatCapacity(200)).toThrow(RangeError);
});
