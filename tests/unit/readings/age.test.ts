import fc from '#tests/support/property';
import { describe, expect, it } from 'vitest';
import { type Age, LOST_MOST_MS, NEVER_HEARD, ageOf, forget, freshness, heard, lateAfter, lostAfter } from '#lib/measure/readings/age';
import { monotonic } from '#lib/units/time';

/** An instrument heard at these moments. */
const after = (moments: readonly number[], from: Age = NEVER_HEARD): Age =>
  moments.reduce<Age>((age, moment) => heard(age, monotonic(moment)), from);

const every = (interval: number, count: number, from = 0): number[] => Array.from({ length: count }, (_, at) => from + at * interval);

const when = (age: Age, now: number): string => freshness(age, monotonic(now));

describe('A1: a frozen value never looks live', () => {
  it('silence alone turns fresh into late and late into lost', () => {
    const age = after(every(100, 20));
    const last = 1900;
    const seen = every(50, 80, last).map((now) => when(age, now));
    expect(seen.indexOf('late') * 50).toBe(550);
    expect(seen.indexOf('lost') * 50).toBe(1550);
    expect(seen.at(-1)).toBe('lost');
    expect(new Set(seen.slice(seen.indexOf('lost')))).toEqual(new Set(['lost']));
  });

  it('no value begins fresh, nor is fresh again after a suspend before a new one came', () => {
    expect(when(NEVER_HEARD, 0)).toBe('lost');
    const age = forget(after(every(100, 20)));
    expect(when(age, 1900)).toBe('lost');
    expect(ageOf(age, monotonic(1900))).toBeNull();
    expect(when(heard(age, monotonic(90_000)), 90_000)).toBe('fresh');
  });

  it.each([
    [50, 500, 1500],
    [100, 500, 1500],
    [400, 1000, 2000],
    [1000, 1500, 3000],
    [5000, 1500, 3000],
  ])('every %i ms: late after %i, lost after %i', (interval, late, lost) => {
    const age = after(every(interval, 30));
    const last = interval * 29;
    expect(age.period).toBeCloseTo(interval);
    expect([lateAfter(age.period), lostAfter(age.period)]).toEqual([late, lost]);
    expect(when(age, last + late)).toBe('fresh');
    expect(when(age, last + late + 1)).toBe('late');
    expect(when(age, last + lost)).toBe('late');
    expect(when(age, last + lost + 1)).toBe('lost');
  });

  it('the first reading is fresh, and lost within three seconds though no interval is known', () => {
    const age = after([5000]);
    expect(when(age, 5000)).toBe('fresh');
    expect(when(age, 5000 + LOST_MOST_MS + 1)).toBe('lost');
    expect(ageOf(age, monotonic(5700))).toBe(700);
  });

  it('whatever came before, three seconds of silence lose a value', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 20_000 }), { minLength: 1, maxLength: 60 }), (intervals) => {
        let now = 0;
        const age = after(intervals.map((interval) => (now += interval)));
        expect(when(age, now + 3001)).toBe('lost');
        expect(when(age, now)).toBe('fresh');
      }),
    );
  });
});

describe('the usual interval', () => {
  it('is not fooled by two readings in one chunk', () => {
    const pairs = every(200, 40).flatMap((moment) => [moment, moment]);
    const { period } = after(pairs);
    expect(period).toBeGreaterThan(80);
    expect(period).toBeLessThan(120);
  });

  it('is hardly moved by one long silence', () => {
    const age = after([...every(100, 20), ...every(100, 1, 60_000)]);
    expect(age.period).toBeLessThanOrEqual(140);
  });

  it('follows an instrument that slowed down', () => {
    const age = after([...every(100, 20), ...every(1000, 40, 3000)]);
    expect(age.period).toBeGreaterThan(900);
  });

  it('starts over two readings of one moment', () => {
    expect(after([10, 10]).period).toBeNull();
    expect(after([10, 10, 110]).period).toBe(100);
  });
});
