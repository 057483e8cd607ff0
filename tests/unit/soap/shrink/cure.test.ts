import { describe, expect, it } from 'vitest';
import { forecastCure, LAST_DAY, learnFrom, seededNumbers, UNKNOWN_MAKER, weightOn, type CureWatch } from '#lib/soap/shrink/index';

const watch: CureWatch = { water: 0.24, bars: 3, cutWeight: 125, step: 0.1, weighings: [] };
const weighed = (...weighings: readonly (readonly [day: number, loss: number])[]): CureWatch => ({
  ...watch,
  weighings: weighings.map(([day, loss]) => ({ day, loss })),
});
const rule = { days: 28, perWeek: 0.005 } as const;
const ask = (one: CureWatch, more: Partial<Parameters<typeof forecastCure>[0]> = {}) =>
  forecastCure({ watch: one, rule, today: 0, uniform: seededNumbers(1), ...more });
const end = (day: number | 'later'): number => (day === 'later' ? LAST_DAY + 1 : day);
const at60 = (maker = UNKNOWN_MAKER) => ask(watch, { maker }).loss[60]!;
const lostOfWater = (water: number): number => ask({ ...watch, water }).loss[60]!.middle;
const width = (one: CureWatch): number => {
  const { low, high } = ask(one).loss[60]!;
  return high - low;
};
const five = weighed([7, 0.05], [14, 0.073], [28, 0.094]);

describe('the forecast of a cure', () => {
  it('is the same for the same numbers, and says which model spoke', () => {
    expect(ask(five)).toEqual(ask(five));
    expect(ask(five)).toMatchObject({ model: 'stretched-exponential', weighings: 3, learnedFrom: 0 });
  });

  it('is wide before the first weighing, and narrows with each', () => {
    const widths = [watch, weighed([7, 0.05]), weighed([7, 0.05], [14, 0.073]), five].map(width);
    expect(widths.toSorted((a, b) => b - a)).toEqual(widths);
    expect(widths[3]! / widths[0]!).toBeLessThan(0.4);
  });

  it('goes through what was weighed', () => {
    for (const { day, loss } of five.weighings) {
      const { low, high } = ask(five).loss[day]!;
      expect(loss).toBeGreaterThanOrEqual(low - 0.001);
      expect(loss).toBeLessThanOrEqual(high + 0.001);
      expect(high - low).toBeLessThan(0.01);
    }
  });

  it('loses nothing on the day of cutting and never more than there is water', () => {
    const { loss } = ask(watch);
    expect(loss).toHaveLength(LAST_DAY + 1);
    expect(loss[0]).toEqual({ low: 0, middle: 0, high: 0 });
    expect(loss.every(({ high, middle, low }) => low <= middle && middle <= high && middle <= watch.water)).toBe(true);
  });

  it('tells a wetter bar to lose more', () => {
    expect([0.16, 0.2, 0.24, 0.28].map(lostOfWater).every((loss, i, all) => i === 0 || loss > all[i - 1]!)).toBe(true);
    expect(lostOfWater(0.16)).toBeGreaterThan(0.02);
  });

  it('knows bars that were first weighed days after the knife', () => {
    // The same bars, told from day 7 on: 1 − (1 − 0.094)/(1 − 0.05).
    const later: CureWatch = {
      ...watch,
      from: 7,
      weighings: [
        { day: 14, loss: 1 - 0.927 / 0.95 },
        { day: 28, loss: 1 - 0.906 / 0.95 },
      ],
    };
    const [told, known] = [ask(later).loss[60]!, ask(five).loss[60]!];
    expect(Math.abs(told.middle - known.middle)).toBeLessThan((told.high - told.low) / 2);
    expect(told.high - told.low).toBeGreaterThan(known.high - known.low);
  });
});

describe('the ready date', () => {
  it('is the day itself where only days count', () => {
    expect(ask(watch, { rule: { days: 42, perWeek: null } }).ready).toEqual({ low: 42, middle: 42, high: 42 });
    expect(ask(watch, { rule: { days: 42, perWeek: null } }).next).toBeNull();
    expect(ask(watch, { rule: { days: 130, perWeek: null } }).ready).toEqual({ low: 'later', middle: 'later', high: 'later' });
  });

  it('is not before the days where both count, nor before a window has passed', () => {
    expect(end(ask(five).ready.low)).toBeGreaterThanOrEqual(28);
    expect(end(ask(five, { rule: { days: null, perWeek: 0.5 } }).ready.low)).toBe(14);
  });

  it('is later under a stricter rule', () => {
    const middle = (perWeek: number): number => end(ask(five, { rule: { days: null, perWeek } }).ready.middle);
    expect(middle(0.002)).toBeGreaterThan(middle(0.005));
    expect(middle(0.005)).toBeGreaterThan(middle(0.01));
    expect(ask(five, { rule: { days: null, perWeek: 0.00001 } }).ready.high).toBe('later');
  });

  it('is said with the chance that it has come', () => {
    expect(ask(five, { today: 27 }).readyBy).toBe(0);
    expect(ask(five, { today: 119 }).readyBy).toBeGreaterThan(0.8);
  });

  it('asks for the next weighing where it tells most', () => {
    expect(ask(watch, { today: 1 }).next?.day).toBe(7);
    expect(ask(weighed([7, 0.05]), { today: 8 }).next?.day).toBe(14);
    expect(ask(weighed([7, 0.05], [14, 0.073]), { today: 20 }).next?.day).toBe(28);
    const last = ask(five, { today: 30 });
    expect(last.next?.day).toBe(Math.max(30, end(last.ready.middle)));
  });
});

describe('the belief in a maker', () => {
  const lot = weighed([7, 0.03], [14, 0.045], [28, 0.06], [60, 0.072]);

  it('moves to the maker’s own lots and grows surer', () => {
    const learned = learnFrom([lot, lot, lot]);
    expect(learned.lots).toBe(3);
    expect(Math.abs(at60(learned).middle - 0.072)).toBeLessThan(Math.abs(at60().middle - 0.072));
    expect(at60(learned).high - at60(learned).low).toBeLessThan(0.6 * (at60().high - at60().low));
  });

  it('learns nothing from a lot nobody weighed', () => {
    expect(learnFrom([watch])).toEqual(UNKNOWN_MAKER);
  });
});

describe('what a bar weighs', () => {
  it('is its weight at cutting less what is lost, a little wider than the lot', () => {
    const forecast = ask(five);
    const { low, middle, high } = weightOn(forecast, 60, 125);
    expect(middle).toBeCloseTo(125 * (1 - forecast.loss[60]!.middle), 9);
    expect(low).toBeLessThanOrEqual(125 * (1 - forecast.loss[60]!.high));
    expect(high).toBeGreaterThanOrEqual(125 * (1 - forecast.loss[60]!.low));
    expect(() => weightOn(forecast, 121, 125)).toThrow(/120/);
  });
});

describe('what cannot be', () => {
  it.each([
    [{ ...watch, water: 1.2 }, /water/],
    [{ ...watch, bars: 0 }, /number of bars/],
    [{ ...watch, step: Number.NaN }, /step/],
    [weighed([7, 0.05], [7, 0.06]), /order/],
    [weighed([7, 1.5]), /loss/],
    [{ ...weighed([7, 0.05]), from: 7 }, /order/],
  ] as const)('is refused in words', (one, words) => {
    expect(() => ask(one)).toThrow(words);
  });

  it('and so is a rule that asks for nothing', () => {
    expect(() => ask(watch, { rule: { days: null, perWeek: null } })).toThrow(/rule/);
    expect(() => ask(watch, { rule: { days: 1.5, perWeek: null } })).toThrow(/whole number/);
    expect(() => ask(watch, { rule: { days: null, perWeek: 2 } })).toThrow(/fraction/);
  });
});
