import fc from '#tests/support/property';
import { describe, expect, it } from 'vitest';
import { newVessel, type CoolingMemory } from '#lib/soap/cooling/memory';
import { follow } from '#lib/soap/cooling/follow';
import { outlook } from '#lib/soap/cooling/outlook';
import type { Outlook, Room, Sample } from '#lib/soap/cooling/types';
import { meetingOf } from '#lib/soap/meeting/meeting';
import { celsius, milliCelsiusOf } from '#lib/units/temperature';
import { cooling } from '#tests/support/cooling';

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
/** A vessel over ten minutes, as a probe of whole seconds says it. */
const vessel = fc
  .record({
    power: fc.constantFrom(1, 1.15, 1.25, 1.33),
    from: number(45, 90),
    rate: number(0.02, 0.5),
    step: fc.constantFrom(0.0625, 0.1, 0.5),
    noise: fc.array(number(-0.1, 0.1), { minLength: 7, maxLength: 13 }),
  })
  .map(({ power, from, rate, step, noise }): readonly Sample[] => {
    const curve = cooling(power, from, 20 + (from - 20) * Math.exp(-rate), 600);
    return Array.from({ length: 601 }, (_, at) => ({
      at,
      celsius: Math.round((curve(at) + (noise[at % noise.length] ?? 0)) / step) * step,
    }));
  });
const room = fc.option(
  number(17, 22).map((value): Room => ({ kind: 'probe', celsius: value })),
  { nil: null },
);

const through = (samples: readonly Sample[], room: Room, kind: 'lye' | 'oils' = 'lye'): CoolingMemory =>
  samples.reduce((memory, sample) => follow(memory, sample, room), newVessel({ kind, setsBelow: kind === 'oils' ? 40 : null }));
const lookAt = (samples: readonly Sample[], room: Room, kind: 'lye' | 'oils' = 'lye'): Outlook =>
  outlook(through(samples, room, kind), room, samples.at(-1)?.at ?? 0);

describe('a cooling vessel', () => {
  it('is forecast alike whenever its clock began', () => {
    fc.assert(
      fc.property(vessel, room, fc.integer({ min: 0, max: 1_000_000 }), (samples, room, later) => {
        const now = lookAt(samples, room);
        const then = lookAt(
          samples.map(({ at, celsius }) => ({ at: at + later, celsius })),
          room,
        );
        expect(then.kind).toBe(now.kind);
        if (now.kind === 'none' || then.kind === 'none') return;
        for (const [i, one] of now.ahead.entries()) expect(then.ahead[i]?.middle).toBeCloseTo(one.middle, 6);
      }),
      { numRuns: 25 },
    );
  });

  it('is forecast alike when its probe speaks Fahrenheit', () => {
    fc.assert(
      fc.property(vessel, room, (samples, room) => {
        const spoken = samples.map(({ at, celsius: degrees }) => ({ at, celsius: celsius(degrees) / 1000 }));
        const other = samples.map(({ at, celsius: degrees }) => ({
          at,
          celsius: milliCelsiusOf(Math.round(1000 * (32 + 1.8 * degrees)), 'F') / 1000,
        }));
        const [a, b] = [lookAt(spoken, room), lookAt(other, room)];
        expect(b.kind).toBe(a.kind);
        if (a.kind === 'none' || b.kind === 'none') return;
        for (const [i, one] of a.ahead.entries()) expect(Math.abs((b.ahead[i]?.middle ?? Number.NaN) - one.middle)).toBeLessThan(0.05);
      }),
      { numRuns: 25 },
    );
  });

  it('never warms by itself, nor cools past the coldest its room may be, and its interval holds its middle', () => {
    fc.assert(
      fc.property(vessel, room, fc.constantFrom('lye' as const, 'oils' as const), (samples, room, kind) => {
        const found = lookAt(samples, room, kind);
        if (found.kind === 'none') return;
        for (const [i, one] of found.ahead.entries()) {
          expect(one.middle).toBeLessThanOrEqual((found.ahead[i - 1]?.middle ?? Number.POSITIVE_INFINITY) + 1e-9);
          expect(one.low).toBeLessThanOrEqual(one.middle);
          expect(one.high).toBeGreaterThanOrEqual(one.middle);
          expect(one.middle).toBeGreaterThanOrEqual((room?.celsius ?? 18) - 1 - 1e-9);
        }
      }),
      { numRuns: 40 },
    );
  });
});

describe('two vessels', () => {
  const terms = fc.record({
    low: number(28, 36),
    high: number(42, 55),
    setsAt: fc.option(number(25, 38), { nil: null }),
    settingMargin: fc.constant(2),
    apart: number(2, 10),
    apartLevel: fc.constantFrom('hold' as const, 'advise' as const),
    milkLimit: fc.option(number(38, 45), { nil: null }),
  });

  it('are never told to cool the oils, to leave the window, or to scorch a milk; and no act puts the meeting off', () => {
    fc.assert(
      fc.property(vessel, vessel, terms, room, (lye, oils, terms, room) => {
        const found = meetingOf(lookAt(lye, room), lookAt(oils, room, 'oils'), terms, null);
        if (found.kind === 'none') return;
        for (const act of found.acts) {
          expect(act.vessel === 'oils' && (act.kind as string) === 'cool').toBe(false);
          expect(act.to).toBeLessThanOrEqual(Math.min(terms.high, act.vessel === 'lye' ? (terms.milkLimit ?? 99) : 99) + 0.5);
          expect(act.to).toBeGreaterThanOrEqual(terms.low - 0.5);
          expect(act.start).toBeGreaterThanOrEqual(0);
          expect(act.meets.kind).not.toBe('never');
        }
        const { when } = found;
        if (when.kind !== 'in') return;
        expect(when.low).toBeLessThanOrEqual(when.middle);
        expect(when.middle).toBeLessThanOrEqual(when.high);
      }),
      { numRuns: 60 },
    );
  });
});
