import fc from '#tests/support/property';
import { describe, expect, it } from 'vitest';
import type { MassReading, ProbeFault, TemperatureReading } from '#lib/measure/reading';
import { NEW_PROBE, type ProbeMemory, judgeProbe, massSuspect } from '#lib/measure/readings/suspect';
import { as } from '#lib/units/id';
import type { InstrumentId } from '#lib/units/id';
import { grams } from '#lib/units/mass';
import { celsius } from '#lib/units/temperature';
import { monotonic } from '#lib/units/time';

const reading = (degrees: number | ProbeFault, at: number): TemperatureReading => ({
  kind: 'temperature',
  instrument: as<InstrumentId>('probe'),
  seq: at,
  at: monotonic(at),
  raw: new Uint8Array(0),
  use: 'lye',
  value: typeof degrees === 'number' ? celsius(degrees) : null,
  text: String(degrees),
  fault: typeof degrees === 'number' ? null : degrees,
});

/** What is left of a run of values, one each `interval` ms: the number or the reason. */
const judged = (run: readonly (number | ProbeFault)[], interval = 1000): (number | ProbeFault | null)[] => {
  let memory: ProbeMemory = NEW_PROBE;
  return run.map((degrees, at) => {
    const given = reading(degrees, at * interval);
    const next = judgeProbe(memory, given);
    memory = next.memory;
    const { value, fault } = next.reading;
    // Never silently nothing, and never both.
    expect(value === null).toBe(fault !== null);
    expect({ ...next.reading, value, fault }).toEqual({ ...given, value, fault });
    return value === null ? fault : value / 1000;
  });
};

describe('A7: a sensor fault is a word, not a temperature', () => {
  const ramp = [60, 60.4, 60.8, 61.2];

  it.each([
    ['the power-on value', 85, 'power-on-value'],
    ['the lost value', -127, 'disconnected'],
    ['an open thermocouple', 0, 'probe-error'],
    ['a failed conversion', 127.94, 'probe-error'],
    ['an imitation restarting', 25, 'power-on-value'],
    ['more than the sensor can measure', 126, 'out-of-range'],
    ['less than the sensor can measure', -60, 'out-of-range'],
  ] as const)('%s in mid-ramp, however often', (_, value, fault) => {
    expect(judged([...ramp, value, 61.6, value, value, value, value, value, 62])).toEqual([
      ...ramp,
      fault,
      61.6,
      ...Array.from({ length: 5 }, () => fault),
      62,
    ]);
  });

  it('a true 85 reached by a ramp passes, stays and leaves', () => {
    const run = [82, 83, 84, 84.5, 85, 85, 85, 84.4, 83];
    expect(judged(run)).toEqual(run);
    const steep = [78, 80, 82, 84, 85, 87];
    expect(judged(steep)).toEqual(steep);
  });

  it('so do a true 25 and a true 0', () => {
    const warm = [24.9, 25, 25.1];
    expect(judged(warm)).toEqual(warm);
    const ice = [1, 0.5, 0, -0.5];
    expect(judged(ice)).toEqual(ice);
  });

  it('85 right after a fault or a silence is no ramp', () => {
    expect(judged([84, 84.5, 'disconnected', 85])).toEqual([84, 84.5, 'disconnected', 'power-on-value']);
    expect(judged([84, 84.5, 85], 4000)).toEqual([84, 84.5, 'power-on-value']);
  });

  it('B5: a board that restarts on open says 85 first, and is not believed until it says something else', () => {
    expect(judged([85, 85, 85, 42.3, 42.2])).toEqual(['power-on-value', 'power-on-value', 'power-on-value', 42.3, 42.2]);
    expect(judged([0, 0, 20])).toEqual(['probe-error', 'probe-error', 20]);
  });

  it('a room at 25 is believed when nothing speaks against it', () => {
    expect(judged([25, 25, 25])).toEqual([25, 25, 25]);
  });

  it('keeps the words of the board', () => {
    expect(judged([60, 'shorted', 'not-a-number', 60.1])).toEqual([60, 'shorted', 'not-a-number', 60.1]);
  });
});

describe('jumps', () => {
  it('one wild value is none; the ramp goes on', () => {
    expect(judged([60, 60.2, 31, 60.4])).toEqual([60, 60.2, 'jump', 60.4]);
  });

  it('a probe carried to another vessel is believed once it agrees with itself for a second', () => {
    expect(judged([80, 80, 40, 40.1, 40.1, 40.2], 500)).toEqual([80, 80, 'jump', 'jump', 40.1, 40.2]);
    expect(judged([80, 80, 40, 40, 40, 40, 40, 40, 40, 40, 40, 40, 40], 100).slice(2).indexOf(40)).toBe(10);
  });

  it('values that agree with nothing are never believed', () => {
    const wild = [80, 20, 60, 100, 30, 60, 10, 50];
    expect(judged(wild)).toEqual([80, ...wild.slice(1).map(() => 'jump')]);
  });

  it('after a long silence a value far off has to agree with itself', () => {
    expect(judged([80, 79.9, 79.8, 40, 40], 20_000)).toEqual([80, 79.9, 79.8, 'jump', 'jump']);
    expect(judged([80, 79.9, 72], 60_000)).toEqual([80, 79.9, 72]);
  });

  it('a change no faster than a pot can make is never held back', () => {
    const slope = fc.double({ min: -2, max: 2, noNaN: true });
    fc.assert(
      fc.property(fc.array(slope, { minLength: 1, maxLength: 60 }), fc.constantFrom(100, 500, 1000), (slopes, interval) => {
        let degrees = 50;
        const run = slopes.map((perSecond) => (degrees = Math.min(100, Math.max(1, degrees + (perSecond * interval) / 1000))));
        expect(judged(run, interval).every((value) => typeof value === 'number')).toBe(true);
      }),
    );
  });
});

const weight = (value: number | null): MassReading => ({
  kind: 'mass',
  instrument: as<InstrumentId>('scale'),
  seq: 1,
  at: monotonic(0),
  raw: new Uint8Array(0),
  text: '',
  unit: 'g',
  mass: value === null ? null : grams(value),
  step: grams(1),
  motion: 'stable',
  range: value === null ? 'over' : 'in',
  weighing: 'gross',
});

describe('mass', () => {
  it('A2: more than the scale can show is none (OIML R 76-1: nothing is shown above Max + 9 e)', () => {
    expect(massSuspect(weight(5009), grams(5000), grams(1))).toBeNull();
    expect(massSuspect(weight(5010), grams(5000), grams(1))).toBe('beyond-capacity');
    expect(massSuspect(weight(12_345.6), grams(5000), grams(1))).toBe('beyond-capacity');
    expect(massSuspect(weight(12_345.6), null, grams(1))).toBeNull();
    expect(massSuspect(weight(null), grams(5000), grams(1))).toBeNull();
  });
});
