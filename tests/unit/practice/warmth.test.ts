import { describe, expect, it } from 'vitest';
import { createKettle, LYE_KETTLE, OILS_KETTLE } from '#hardware/practice/world/kettle';
import type { KettleModel } from '#hardware/practice/world/kettle';
import { PROBE_STEP, createProbe } from '#hardware/practice/world/probe';
import { random } from '#hardware/practice/world/random';
import { createWarmth } from '#hardware/practice/world/warmth';

/** By how much a kettle cools in so many seconds in a room of 20 °C. */
const fallOf = (model: KettleModel, seconds: number): number => {
  const kettle = createKettle(model);
  kettle.advance(seconds, 20);
  return model.start - kettle.celsius;
};

/** The oils after so many seconds at so many times their pace. */
const oilsAfter = (times: number, seconds: number): number => {
  const warmth = createWarmth(7);
  warmth.hurry(times);
  for (let t = 0; t < seconds * 10; t += 1) warmth.advance(0.1);
  return warmth.oils.celsius;
};

describe('kettles', () => {
  it('cool towards the room and never past it', () => {
    const oils = createKettle(OILS_KETTLE);
    let last = oils.celsius;
    for (let minute = 0; minute < 600; minute += 1) {
      oils.advance(60, 20);
      expect(oils.celsius).toBeLessThanOrEqual(last);
      expect(oils.celsius).toBeGreaterThanOrEqual(20);
      last = oils.celsius;
    }
    expect(last).toBeLessThan(27);
  });

  it('cool by the stated power of the difference, not by a plain exponential', () => {
    expect(fallOf({ ...LYE_KETTLE, start: 84 }, 1) / fallOf({ ...LYE_KETTLE, start: 36 }, 1)).toBeCloseTo(4 ** LYE_KETTLE.power, 1);
  });

  it('slow down where a fat sets', () => {
    expect(fallOf({ ...OILS_KETTLE, start: 29, setsAt: 29 }, 60)).toBeLessThan(fallOf({ ...OILS_KETTLE, start: 29, setsAt: null }, 60) / 3);
    expect(fallOf({ ...OILS_KETTLE, start: 40, setsAt: 29 }, 60)).toBeCloseTo(fallOf({ ...OILS_KETTLE, start: 40, setsAt: null }, 60), 3);
  });

  it('come out of a bath at the temperature wanted, or when its time is over', () => {
    const lye = createKettle({ ...LYE_KETTLE, start: 80 });
    lye.bathe({ celsius: 12, seconds: 3_600, until: 40 });
    while (lye.bathing) lye.advance(1, 20);
    expect(lye.celsius).toBeLessThanOrEqual(40);
    expect(lye.celsius).toBeGreaterThan(39.5);
    lye.bathe({ celsius: 60, seconds: 120, until: null });
    lye.advance(119, 20);
    expect(lye.bathing).toBe(true);
    lye.advance(2, 20);
    expect(lye.bathing).toBe(false);
    expect(lye.celsius).toBeGreaterThan(41);
  });
});

describe('two vessels and a room', () => {
  it('lye jumps to about 80 °C once, within a minute or two', () => {
    for (const seed of [1, 2, 3, 4, 5]) {
      const warmth = createWarmth(seed);
      expect(warmth.lye.celsius).toBeLessThan(22);
      expect(warmth.makeLye()).toBe(true);
      expect(warmth.makeLye()).toBe(false);
      for (let t = 0; t < 120; t += 0.1) warmth.advance(0.1);
      expect(warmth.lye.celsius).toBeGreaterThan(74);
      expect(warmth.lye.celsius).toBeLessThan(84);
    }
  });

  it('hurries temperatures by the times asked', () => {
    expect(oilsAfter(20, 60)).toBeCloseTo(oilsAfter(1, 1_200), 1);
    expect(oilsAfter(1, 60)).toBeGreaterThan(oilsAfter(20, 60) + 1);
  });

  it('brings melted oils and water to the next batch within minutes, never by the leap of a dipped probe, and at its own pace', () => {
    const warmth = createWarmth(8);
    warmth.makeLye();
    warmth.hurry(20);
    for (let t = 0; t < 600; t += 1) warmth.advance(1);
    const before = warmth.oils.celsius;
    expect(before).toBeLessThan(30);
    warmth.refill(false);
    expect(warmth.lyeMade).toBe(false);
    for (let t = 0; t < 6; t += 1) warmth.advance(1);
    expect(warmth.oils.celsius - before).toBeLessThan(2);
    for (let t = 0; t < 294; t += 1) warmth.advance(1);
    expect(warmth.oils.celsius).toBeGreaterThan(40);
    expect(warmth.lye.celsius).toBeLessThan(25);
  });

  it('water takes the place of hot lye little by little, too', () => {
    const warmth = createWarmth(8);
    warmth.makeLye();
    for (let t = 0; t < 180; t += 1) warmth.advance(1);
    const before = warmth.lye.celsius;
    expect(before).toBeGreaterThan(60);
    warmth.refill(false);
    for (let t = 0; t < 6; t += 1) warmth.advance(1);
    expect(before - warmth.lye.celsius).toBeLessThan(6);
    for (let t = 0; t < 594; t += 1) warmth.advance(1);
    expect(warmth.lye.celsius).toBeLessThan(25);
  });

  it('finds lye that was made already as it was left', () => {
    const warmth = createWarmth(8);
    warmth.refill(true);
    expect(warmth.lyeMade).toBe(true);
    expect(warmth.lye.celsius).toBeGreaterThan(40);
  });
});

describe('probes', () => {
  it('answer in sixteenths, lag behind, and stay within half a degree of the truth', () => {
    for (const seed of [1, 2, 3, 4, 5, 6]) {
      const probe = createProbe(20, random(seed, 'probe'));
      probe.advance(1, 80);
      expect(probe.convert()).toBeLessThan(40);
      probe.advance(60, 80);
      for (let i = 0; i < 50; i += 1) {
        const value = probe.convert();
        expect((value / PROBE_STEP) % 1).toBe(0);
        expect(Math.abs(value - 80)).toBeLessThan(0.5);
      }
    }
  });
});
