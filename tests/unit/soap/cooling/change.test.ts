import { describe, expect, it } from 'vitest';
import { follow, moved } from '#lib/soap/cooling/follow';
import { newVessel } from '#lib/soap/cooling/memory';
import { outlook } from '#lib/soap/cooling/outlook';
import { cooling, forecastAt, LYE, noisy, OILS, rangeAt, ROOM, watched, type Curve } from '#tests/support/cooling';

/** A curve that becomes another at a moment, from wherever it stands. */
const then = (first: Curve, at: number, second: (from: number) => Curve): Curve => {
  const next = second(first(at));
  return noisy((t) => (t < at ? first(t) : next(t - at)), 0.03);
};

const air = cooling(1.25, 80, 62, 1200);
const blip: Curve = (t) => (t >= 900 && t < 920 ? 75 : noisy(air)(t));
const whyAt = (memory: ReturnType<typeof watched>, now: number): string => {
  const found = outlook(memory, ROOM, now);
  return found.kind === 'none' ? found.why : 'forecast';
};

describe('another law', () => {
  it('a bath of cold water is noticed within 140 s, and the forecast moves', () => {
    const bath = then(air, 900, (from) => cooling(1, from, from - 20, 600, 12));
    const before = rangeAt(forecastAt(watched(bath, { until: 895 }), 895), 600);
    const memory = watched(bath, { until: 1200 });
    const mark = memory.marks.at(-1);
    expect(mark?.turn).toBe('faster');
    expect((mark?.noticed ?? Infinity) - 900).toBeLessThan(140);
    expect(Math.abs((mark?.since ?? Infinity) - 900)).toBeLessThan(60);
    const after = rangeAt(forecastAt(watched(bath, { until: 1400 }), 1400), 300);
    expect(after.high).toBeLessThan(before.low);
    expect(bath(1700)).toBeGreaterThan(after.low);
    expect(bath(1700)).toBeLessThan(after.high);
  });

  it('says nothing of the vessel between noticing the bath and knowing it', () => {
    const bath = then(air, 900, (from) => cooling(1, from, from - 20, 600, 12));
    const memory = watched(bath, { until: 1040 });
    expect(memory.marks.length).toBe(1);
    expect(whyAt(memory, 1040)).toBe('not-yet');
  });

  it('a hob is rising, not a forecast, and the law starts anew at the top', () => {
    const hob: Curve = noisy(
      (t) => (t < 900 ? air(t) : t < 1200 ? air(900) + (t - 900) / 30 : cooling(1.25, air(900) + 10, 62, 1200)(t - 1200)),
      0.03,
    );
    expect(whyAt(watched(hob, { until: 1000 }), 1000)).toBe('rising');
    const memory = watched(hob, { until: 1500 });
    expect(memory.marks.map(({ turn }) => turn)).toContain('warms');
    expect(Math.abs(forecastAt(memory, 1500).since - 1200)).toBeLessThan(60);
    const { low, high } = rangeAt(forecastAt(memory, 1500), 600);
    expect(hob(2100)).toBeGreaterThan(low);
    expect(hob(2100)).toBeLessThan(high);
  });

  it('cold oil poured in is a leap', () => {
    const poured = then(air, 900, (from) => cooling(1.25, from - 9, from - 17, 1500));
    const memory = watched(poured, { until: 1300, contents: OILS });
    expect(memory.marks.map(({ turn }) => turn)).toEqual(['leapt']);
    expect((memory.marks[0]?.noticed ?? Infinity) - 900).toBeLessThan(100);
    const { low, high } = rangeAt(forecastAt(memory, 1300), 600);
    expect(poured(1900)).toBeGreaterThan(low);
    expect(poured(1900)).toBeLessThan(high);
  });

  it('a lid is a slower law', () => {
    const lid = then(air, 900, (from) => cooling(1.25, from, from - 2, 1200));
    const memory = watched(lid, { until: 1500 });
    expect(memory.marks.map(({ turn }) => turn)).toEqual(['slower']);
  });

  it('a lid that keeps a fifth of the heat in is noticed within ten minutes, if no sooner', () => {
    const rest = cooling(1.25, 65, 45, 1800);
    const lid = then(rest, 1200, (from) => cooling(1.25, from, rest(1800), 600 / 0.8));
    const [mark] = watched(lid, { until: 2400 }).marks;
    expect(mark?.turn).toBe('slower');
    expect((mark?.noticed ?? Infinity) - 1200).toBeLessThan(620);
  });

  it('nothing is marked where nothing happens, in three hours', () => {
    expect(watched(noisy(cooling(1.33, 90, 50, 3600)), { until: 3 * 3600 }).marks).toEqual([]);
  });

  it('a person who moved it is believed at once', () => {
    const memory = moved(watched(noisy(air), { until: 900 }), 900);
    expect(memory.marks.at(-1)).toEqual({ turn: 'said', since: 900, noticed: 900 });
    expect(whyAt(watched(noisy(air), { from: 901, until: 960, memory }), 960)).toBe('not-yet');
    expect(whyAt(watched(noisy(air), { from: 901, until: 1100, memory }), 1100)).toBe('forecast');
  });
});

describe('oils in which a fat sets', () => {
  const toSetting = cooling(1.25, 60, 36, 1500);
  const standing = then(toSetting, 1500, (from) => (t) => from - t / 2400);

  it('may halt at any temperature below: the interval reaches up to there', () => {
    const { high } = rangeAt(forecastAt(watched(standing, { until: 1400, contents: OILS }), 1400), 1200);
    expect(high).toBeGreaterThan(standing(2600));
    // Lye stands nowhere: the same curve is taken to cool on.
    expect(rangeAt(forecastAt(watched(standing, { until: 1400 }), 1400), 1200).high).toBeLessThan(standing(2600));
  });

  it('are seen to stand, with their delay, and may go on at their own pace any moment', () => {
    const memory = watched(standing, { until: 2100, contents: OILS });
    const mark = memory.marks.at(-1);
    expect(mark?.turn).toBe('sets');
    expect((mark?.noticed ?? Infinity) - 1500).toBeLessThan(300);
    const forecast = forecastAt(memory, 2100);
    expect(forecast.setting).toBe(true);
    expect(rangeAt(forecast, 1200).high).toBeGreaterThan(standing(3300));
  });
});

describe('no forecast', () => {
  it('before anything was heard, before eight blocks, and after a minute and a half of silence', () => {
    expect(whyAt(newVessel(LYE), 0)).toBe('nothing-heard');
    expect(whyAt(follow(newVessel(LYE), { at: 0, celsius: 80 }, ROOM), 1)).toBe('not-yet');
    expect(whyAt(watched(noisy(air), { until: 140 }), 140)).toBe('not-yet');
    const memory = watched(noisy(air), { until: 200 });
    expect(whyAt(memory, 200)).toBe('forecast');
    expect(whyAt(memory, 320)).toBe('silent');
  });

  it('while lye is being made', () => {
    const made: Curve = noisy((t) => (t < 200 ? 20 + 0.3 * t : cooling(1.25, 80, 62, 1200)(t - 200)));
    expect(whyAt(watched(made, { until: 190 }), 190)).toBe('rising');
    expect(whyAt(watched(made, { until: 300 }), 300)).toBe('not-yet');
    const memory = watched(made, { until: 600 });
    expect(Math.abs(forecastAt(memory, 600).since - 200)).toBeLessThan(50);
    expect(memory.marks).toEqual([]);
  });

  it('with the probe in the air, however long; back in the lye, the law that held goes on', () => {
    const inAir = (t: number): number => 21 + (air(900) - 21) * Math.exp(-(t - 900) / 30);
    const lifted: Curve = noisy((t) => (t >= 900 && t < 1300 ? inAir(t) : air(t)), 0.03);
    for (const t of [930, 960, 1000, 1100, 1200, 1290])
      expect(['suspect', 'out'], `at ${t} s`).toContain(whyAt(watched(lifted, { until: t }), t));
    const back = watched(lifted, { until: 1400 });
    expect(back.marks).toEqual([]);
    const { low, high } = rangeAt(forecastAt(back, 1400), 600);
    expect(air(2000)).toBeGreaterThan(low);
    expect(air(2000)).toBeLessThan(high);
  });

  it('when one block leaps, until the next says whether it was so', () => {
    expect(whyAt(watched(blip, { until: 925 }), 925)).toBe('suspect');
    expect(whyAt(watched(blip, { until: 1000 }), 1000)).toBe('forecast');
    expect(watched(blip, { until: 1000 }).marks).toEqual([]);
  });
});
