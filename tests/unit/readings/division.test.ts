import { describe, expect, test } from 'vitest';
import { flickerAfter, flickerStep, NO_FLICKER } from '#lib/measure/readings/division';
import { follow, startTrack } from '#lib/measure/readings/settle';
import { mg } from '#lib/units/mass';
import { massOfText } from '#lib/units/mass-text';
import type { MassUnit } from '#lib/units/mass';
import { massReading } from '#tests/support/mass-reading';
import fc from '#tests/support/property';

const STEP = 100;
const learnt = (changes: readonly number[], step = STEP): number | null =>
  flickerStep(changes.reduce((flicker, change) => flickerAfter(flicker, change, step), NO_FLICKER));
const backAndForth = (...sizes: readonly number[]): number[] =>
  Array.from({ length: 16 }, (_, n) => (n % 2 === 0 ? 1 : -1) * (sizes[n % sizes.length] ?? 0));

describe('in what steps a figure moves', () => {
  test('a figure that flickers by five of its last digit moves in fives', () => {
    expect(learnt(backAndForth(500, 1000))).toBe(500);
    expect(learnt(backAndForth(500, 500, 300))).toBe(100);
  });

  test('nothing is known before it has turned back often enough', () => {
    expect(learnt(backAndForth(500).slice(0, 10))).toBeNull();
  });

  test('a stream says nothing of it, however steady', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 90 }), { maxLength: 200 }), fc.constantFrom(1, -1), (digits, way) => {
        expect(learnt(digits.map((one) => one * way * STEP))).toBeNull();
      }),
    );
  });

  test('what is set down and lifted again by turns says nothing of it either', () => {
    expect(learnt(backAndForth(642_500, 120_000))).toBeNull();
  });

  test('it is never finer than the last digit shown, and all that was seen are multiples of it', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 5_000 }),
        fc.array(fc.integer({ min: 1, max: 20 }), { minLength: 13, maxLength: 60 }),
        (step, sizes) => {
          const changes = sizes.map((size, n) => (n % 2 === 0 ? size : -size) * step);
          const found = learnt(changes, step);
          expect(found).not.toBeNull();
          expect(found).toBeGreaterThanOrEqual(step);
          expect(changes.slice(1).every((change) => change % (found ?? 0) === 0)).toBe(true);
        },
      ),
    );
  });

  test.each<[MassUnit, readonly string[], number]>([
    ['oz', ['10.00', '10.05'], 5],
    ['oz', ['176.35', '176.40'], 5],
    ['lb', ['2.002', '2.000'], 2],
    ['kg', ['1.0005', '1.0000'], 5],
  ])('in %s, too: %j', (unit, [low = '', high = ''], digits) => {
    const read = (text: string) => massOfText(text, unit) ?? expect.fail(text);
    const { step } = read(low);
    const change = read(high).mass - read(low).mass;
    expect(learnt(backAndForth(Math.abs(change)), step)).toBe(digits * step);
  });
});

describe('a weight that settled after a steady stream', () => {
  test('has not stood still when a little more drops in, though the stream only ever moved by far more than that', () => {
    const stream = Array.from({ length: 14 }, (_, n) => 600_000 + n * 8_900);
    const rest = Array.from({ length: 24 }, () => 715_700);
    const said = [...stream, ...rest, 719_300].map((mass, n) => massReading(STEP, n + 1, 200 * (n + 1), mass));
    const settled = said.slice(0, -1).reduce(follow, startTrack(STEP));
    expect(settled).toMatchObject({ stable: true, division: STEP });
    expect(said.slice(-1).reduce(follow, settled)).toMatchObject({ stable: false, division: STEP });
  });
});

/** Frames of a scale ten times a second; each with the step of its last digit. */
const heard = (said: readonly (readonly [mass: number, step: number])[], told = 0) =>
  said.reduce(
    (track, [mass, step], n) => follow(track, massReading(step, n + 1, 100 * (n + 1), mass)),
    startTrack(Math.max(told, said[0]?.[1] ?? 0), told),
  );

describe('the division a weight is judged by', () => {
  test('is never finer than the last digit shown, though more digits were shown before', () => {
    const fine = Array.from({ length: 20 }, () => [400_000, 100] as const);
    const coarse = Array.from({ length: 20 }, () => [900_000, 1_000] as const);
    expect(heard([...fine, ...coarse])).toMatchObject({ division: 1_000 });
    expect(heard([...fine, ...coarse, ...fine])).toMatchObject({ division: 100 });
    expect(heard([...coarse, ...fine])).toMatchObject({ division: 100 });
  });

  test('is not finer in another unit than a person said, and what its figure flickers by is learnt anew', () => {
    const grams = Array.from({ length: 5 }, () => [400_000, 100] as const);
    expect(
      grams
        .map(([mass, step], n) => ({ ...massReading(step, n + 9, 1_000 + 100 * n, mass), unit: 'oz' as const, step: mg(28) }))
        .reduce(follow, heard(grams, 500)),
    ).toMatchObject({ division: 500 });
  });
});
