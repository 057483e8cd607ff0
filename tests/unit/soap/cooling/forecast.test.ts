import { describe, expect, it } from 'vitest';
import { comesDownTo } from '#lib/soap/cooling/reach';
import { cooling, forecastAt, inSteps, noisy, OILS, rangeAt, ROOM, watched } from '#tests/support/cooling';

const MINUTE = 60;

describe('the room at 20 °C, twenty minutes from 85 to 65 °C', () => {
  // The workshop's own example: a plain exponential comes to 43 °C after 36.3 min, the power 1.25 after 41.6, and neither can be ruled out.
  const truth = cooling(1.25, 85, 65, 20 * MINUTE);
  const minutes = (value: number | null): number => (value ?? Number.POSITIVE_INFINITY) / MINUTE;

  it('is the example it claims to be', () => {
    const newton = cooling(1, 85, 65, 20 * MINUTE);
    expect(newton(20 * MINUTE + 36.3 * MINUTE)).toBeCloseTo(43, 0);
    expect(truth(20 * MINUTE + 41.6 * MINUTE)).toBeCloseTo(43, 1);
  });

  it.each([0.0001, 0.0625, 0.1, 5 / 9])('reaches 43 °C by an interval that covers both, in steps of %d °C', (step) => {
    const memory = watched(inSteps(truth, step), { until: 20 * MINUTE });
    const { low, middle, high } = comesDownTo(forecastAt(memory, 20 * MINUTE).ahead, 43);
    expect(minutes(low)).toBeLessThanOrEqual(36.3);
    expect(minutes(high)).toBeGreaterThanOrEqual(41.6);
    expect(minutes(middle)).toBeGreaterThan(38);
    expect(minutes(high)).toBeLessThan(60);
  });
});

const width = ({ low, high }: { readonly low: number; readonly high: number }): number => high - low;

describe('readings as probes give them', () => {
  const truth = cooling(1.2, 80, 60, 25 * MINUTE);

  it.each([
    ['0.0625 °C', 0.0625],
    ['0.1 °C', 0.1],
    ['1 °F', 5 / 9],
  ])('in steps of %s: ten minutes ahead, right and narrow enough to be of use', (_, step) => {
    const memory = watched(inSteps(noisy(truth), step), { until: 15 * MINUTE });
    const { low, high } = rangeAt(forecastAt(memory, 15 * MINUTE), 10 * MINUTE);
    expect(truth(25 * MINUTE)).toBeGreaterThan(low);
    expect(truth(25 * MINUTE)).toBeLessThan(high);
    expect(high - low).toBeLessThan(4);
  });

  it('one wild reading in forty changes nothing that matters', () => {
    const wild = (t: number): number => (t % 40 === 7 ? 85 : noisy(truth)(t));
    const [with_, without] = [watched(wild, { until: 900 }), watched(noisy(truth), { until: 900 })];
    const [a, b] = [rangeAt(forecastAt(with_, 900), 600), rangeAt(forecastAt(without, 900), 600)];
    expect(Math.abs(a.middle - b.middle)).toBeLessThan(0.15);
    expect(with_.marks).toEqual([]);
  });

  it('a gap of four minutes is bridged by the law that held before it', () => {
    const gap = (t: number): number | null => (t > 700 && t < 940 ? null : noisy(truth)(t));
    const memory = watched(gap, { until: 1100 });
    expect(memory.marks).toEqual([]);
    const { low, high } = rangeAt(forecastAt(memory, 1100), 600);
    expect(truth(1700)).toBeGreaterThan(low);
    expect(truth(1700)).toBeLessThan(high);
  });

  it('one reading every ten seconds is enough', () => {
    const memory = watched(noisy(truth), { until: 900, every: 10 });
    expect(truth(1500)).toBeGreaterThan(rangeAt(forecastAt(memory, 900), 600).low);
  });

  it('errors that wander slowly widen the interval instead of bending it', () => {
    // A liquid that swings by 0.2 K about its mean every four minutes: each block shares the error of its neighbour.
    const wandering = (t: number): number => truth(t) + 0.2 * Math.sin((2 * Math.PI * t) / 240);
    const [calm, wild] = [watched(noisy(truth, 0.01), { until: 1200 }), watched(wandering, { until: 1200 })];
    const heldWidth = (memory: typeof calm): number => {
      const { low, high } = rangeAt(forecastAt(memory, 1200), 600);
      expect(truth(1800)).toBeGreaterThan(low);
      expect(truth(1800)).toBeLessThan(high);
      return high - low;
    };
    expect(heldWidth(wild)).toBeGreaterThan(1.3 * heldWidth(calm));
  });

  it('a vessel that creeps upwards by a probe’s drift is taken to stand, not to warm on', () => {
    const { ahead } = forecastAt(
      watched(
        noisy((t) => 30 + t / 4000),
        { until: 900 },
      ),
      900,
    );
    for (const [i, one] of ahead.entries()) expect(one.middle).toBeLessThanOrEqual((ahead[i - 1]?.middle ?? 99) + 1e-9);
    expect(Math.abs((ahead.at(-1)?.middle ?? 0) - 30.2)).toBeLessThan(0.3);
  });

  it('a room that is not known is a doubt, and a room that is measured takes it away', () => {
    // Near its room is where the room counts.
    const cool = noisy(cooling(1.2, 40, 34, 1500));
    const known = watched(cool, { until: 900 });
    const unknown = watched(cool, { until: 900, room: null });
    expect(width(rangeAt(forecastAt(unknown, 900, null), 7200))).toBeGreaterThan(1.15 * width(rangeAt(forecastAt(known, 900), 7200)));
  });
});

describe('what is kept', () => {
  it('is as much after four hours as after one', () => {
    const slow = noisy(cooling(1.25, 85, 40, 4 * 3600));
    const size = (hours: number): number => JSON.stringify(watched(slow, { until: hours * 3600, contents: OILS })).length;
    expect(size(4)).toBeLessThan(1.1 * size(1));
  });

  it('is plain data: a copy of it goes on just so', () => {
    const curve = noisy(cooling(1.25, 85, 65, 1200));
    const half = watched(curve, { until: 600 });
    const copy = JSON.parse(JSON.stringify(half)) as typeof half;
    expect(watched(curve, { from: 601, until: 1200, memory: copy })).toEqual(watched(curve, { from: 601, until: 1200, memory: half }));
  });

  it('takes in nothing that is no number', () => {
    const memory = watched(noisy(cooling(1, 80, 60, 1200)), { until: 600 });
    for (const celsius of [Number.NaN, Number.POSITIVE_INFINITY])
      expect(watched(() => celsius, { from: 601, until: 640, memory })).toBe(memory);
    expect(forecastAt(memory, 610, ROOM).kind).toBe('forecast');
  });
});
