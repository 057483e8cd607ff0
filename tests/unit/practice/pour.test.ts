import fc from '#tests/support/property';
import { describe, expect, it } from 'vitest';
import { liftOff, setDown } from '#hardware/practice/world/hands';
import { measuredPour, pourByEye } from '#hardware/practice/world/pour';
import type { PourPlace } from '#hardware/practice/world/pour';
import { WORKSHOP_SCALES } from '#hardware/practice/world/scale-model';
import { createWorld } from '#hardware/practice/world/world';
import type { World } from '#hardware/practice/world/world';

const bench = (seed: number): World => createWorld({ seed, scales: WORKSHOP_SCALES });
const untilIdle = (world: World, each?: () => void): void => {
  for (let t = 0; world.hands.doing !== null; t += 10) {
    if (t > 120_000) throw new Error('the hands never came to an end');
    world.advance(10);
    each?.();
  }
};
/** A pot of 800 g on the big scale, settled, and a jug beside it. */
const laid = (seed: number): { world: World; place: PourPlace } => {
  const world = bench(seed);
  const at = world.weighings.main;
  if (at === undefined) throw new Error('no big scale');
  const pot = world.vessel('pot', { empty: 800_000, contents: 0 });
  const jug = world.vessel('jug', { empty: 300_000, contents: 900_000 });
  world.hands.take(() => setDown(at, pot, world.chance));
  untilIdle(world);
  world.advance(3_000);
  return { world, place: { from: jug, to: pot, pan: at.pan, scale: at.scale } };
};
const watching = { easeOff: () => false, visible: () => true };
/** What a pour of 400 g has let go after six seconds. */
const pouredAfter = (easeOff: boolean): number => {
  const { world, place } = laid(3);
  world.hands.take(() => pourByEye(place, { aim: 400_000, tolerance: 1_000 }, { ...watching, easeOff: () => easeOff }, world.chance));
  world.advance(6_000);
  return place.to.contents;
};

const shown = (seed: number, cuts: readonly number[]): string => {
  const { world, place } = laid(seed);
  world.hands.take(() => pourByEye(place, { aim: 200_000, tolerance: 800 }, watching, world.chance));
  const seen: number[] = [];
  const until = world.now + 12_000;
  for (let i = 0; world.now < until; i += 1)
    world.advance(Math.min(cuts[i % cuts.length] ?? 10, until - world.now), () => seen.push(place.scale.display().mass));
  return `${seen.join()} ${place.to.contents} ${world.warmth.probes.oils.convert()}`;
};

const seed = fc.integer({ min: 0, max: 1e6 });

describe('pouring', () => {
  it('conserves mass at every step: what leaves the jug is in the pot or in the air', () => {
    fc.assert(
      fc.property(seed, fc.integer({ min: 1, max: 500_000 }), fc.boolean(), (seed, amount, byEye) => {
        const { world, place } = laid(seed);
        const before = place.from.contents;
        world.hands.take(() =>
          byEye
            ? pourByEye(place, { aim: amount, tolerance: Math.max(50, amount / 200) }, watching, world.chance)
            : measuredPour(place, amount, 3),
        );
        untilIdle(world, () => {
          expect(before - place.from.contents).toBe(place.to.contents + world.hands.airborne);
          const { brought, there } = world.ledger();
          expect(there).toBe(brought);
        });
        expect(world.hands.airborne).toBe(0);
        expect(place.pan.push).toBe(0);
      }),
      { numRuns: 40 },
    );
  });

  it('lands a measured pour exactly, in about the time asked', () => {
    fc.assert(
      fc.property(seed, fc.integer({ min: 1, max: 800_000 }), fc.integer({ min: 1, max: 8 }), (seed, amount, seconds) => {
        const { world, place } = laid(seed);
        const began = world.now;
        world.hands.take(() => measuredPour(place, amount, seconds));
        untilIdle(world);
        expect(place.to.contents).toBe(amount);
        expect((world.now - began) / 1_000).toBeLessThan(seconds + 4);
      }),
      { numRuns: 40 },
    );
  });

  it.each([
    [350_000, 1_500],
    [60_000, 300],
    [5_000, 200],
  ])('lands %i mg by eye within tolerance nearly always, after a few seconds', (aim, tolerance) => {
    let within = 0;
    for (let seed = 0; seed < 40; seed += 1) {
      const { world, place } = laid(seed);
      const began = world.now;
      world.hands.take(() => pourByEye(place, { aim, tolerance }, watching, world.chance));
      untilIdle(world);
      if (Math.abs(place.to.contents - aim) <= tolerance) within += 1;
      expect(world.now - began).toBeGreaterThan(1_500);
      expect(world.now - began).toBeLessThan(25_000);
    }
    expect(within).toBeGreaterThanOrEqual(37);
  });

  it('thins the stream when the screen says ease off', () => {
    expect(pouredAfter(true)).toBeLessThan(pouredAfter(false) - 20_000);
  });

  it('stops when the figure cannot be seen any more', () => {
    const { world, place } = laid(4);
    let visible = true;
    world.hands.take(() => pourByEye(place, { aim: 400_000, tolerance: 1_000 }, { ...watching, visible: () => visible }, world.chance));
    world.advance(2_500);
    const sofar = place.to.contents;
    visible = false;
    untilIdle(world);
    expect(sofar).toBeGreaterThan(20_000);
    expect(place.to.contents - sofar).toBeLessThan(80_000);
  });

  it('takes material out of what stands on the pan too, as a bottle weighed by its loss', () => {
    const { world, place } = laid(5);
    place.to.contents = 500_000;
    world.advance(3_000);
    const out = { ...place, from: place.to, to: place.from };
    world.hands.take(() => pourByEye(out, { aim: 100_000, tolerance: 500 }, watching, world.chance));
    untilIdle(world);
    expect(Math.abs(400_000 - out.from.contents)).toBeLessThan(1_000);
  });

  it('ends when the jug is empty', () => {
    const { world, place } = laid(6);
    place.from.contents = 10_000;
    world.hands.take(() => pourByEye(place, { aim: 300_000, tolerance: 500 }, watching, world.chance));
    untilIdle(world);
    expect(place.from.contents).toBe(0);
    expect(place.to.contents).toBe(10_000);
  });

  it('keeps the figure ahead of what has landed by what is in the air: falling material pushes as much as it will weigh', () => {
    const { world, place } = laid(7);
    world.hands.take(() => measuredPour(place, 600_000, 6));
    world.advance(3_000);
    expect(world.hands.airborne).toBeGreaterThan(10_000);
    expect(place.pan.push / world.hands.airborne).toBeGreaterThan(0.9);
    expect(place.pan.push / world.hands.airborne).toBeLessThan(1.1);
  });
});

describe('hands and pans', () => {
  it('sets down with a knock, bears the whole vessel, and lifts it again leaving drops behind', () => {
    const { world, place } = laid(8);
    expect(world.carried('main')).toBe(800_000);
    const drops = world.splash('main');
    expect(drops).toBeGreaterThanOrEqual(30);
    expect(world.carried('main')).toBe(800_000 + drops);
    world.hands.take(() => liftOff(place.pan, world.chance));
    untilIdle(world);
    expect(world.carried('main')).toBe(drops);
    expect(world.whereIs(place.to)).toBeNull();
    const { brought, there } = world.ledger();
    expect(there).toBe(brought);
  });

  it('presses harder than the vessel weighs for a moment while setting down', () => {
    const world = bench(9);
    const at = world.weighings.main;
    if (at === undefined) throw new Error('no big scale');
    world.hands.take(() => setDown(at, world.vessel('pot', { empty: 800_000, contents: 0 }), world.chance));
    let most = 0;
    untilIdle(world, () => (most = Math.max(most, at.pan.push)));
    expect(most).toBeGreaterThan(20_000);
    expect(at.pan.push).toBe(0);
  });

  it('starts anew with a clear table', () => {
    const { world } = laid(10);
    world.splash('main');
    world.clearTable();
    expect(world.carried('main')).toBe(0);
    expect(world.ledger()).toEqual({ brought: 0, there: 0 });
  });
});

describe('the world', () => {
  it('loses no time to asking often', () => {
    const world = bench(1);
    for (let i = 0; i < 1_000; i += 1) world.advance(7);
    expect(world.now).toBe(7_000);
  });

  it('is the same for the same seed, however its time is cut, and another for another seed', () => {
    fc.assert(
      fc.property(seed, fc.array(fc.integer({ min: 1, max: 400 }), { minLength: 1, maxLength: 12 }), (seed, cuts) => {
        expect(shown(seed, cuts)).toBe(shown(seed, [10]));
        expect(shown(seed + 1, [10])).not.toBe(shown(seed, [10]));
      }),
      { numRuns: 10 },
    );
  });
});
