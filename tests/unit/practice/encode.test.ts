import fc from '#tests/support/property';
import { describe, expect, it } from 'vitest';
import { ENCODE, figure, holds, stepIn, UNITS } from '#hardware/practice/encode/index';
import type { ScaleFrame } from '#hardware/practice/encode/index';
import { echoMarker } from '#hardware/practice/encode/echo-marker';
import { PROBE_WORDS, probeLine } from '#hardware/practice/encode/probe-line';
import { POLL } from '#hardware/practice/encode/polls';
import { SCALE_SHAPES } from '#lib/measure/shape';
import type { ScaleShape } from '#lib/measure/shape';
import type { Reading } from '#lib/measure/reading';
import { createWire } from '#lib/measure/wire/index';
import { as } from '#lib/units/id';
import { NANOGRAMS_PER } from '#lib/units/mass';
import type { MassUnit } from '#lib/units/mass';
import { monotonic } from '#lib/units/time';

const text = (bytes: Uint8Array): string => String.fromCharCode(...bytes);
const frame = (count: number, decimals: number, unit: MassUnit, more: Partial<ScaleFrame> = {}): ScaleFrame => ({
  count,
  decimals,
  unit,
  motion: 'stable',
  range: 'in',
  ...more,
});
const say = (shape: ScaleShape, what: ScaleFrame): string => text(ENCODE[shape](what, { by: 1, decimals: what.decimals }));

/** Examples printed in public instrument manuals; the one of letter-reply is from memory. */
describe('published example frames', () => {
  it.each<[ScaleShape, ScaleFrame, string]>([
    ['header-comma', frame(1234, 2, 'g'), 'ST,+00012.34  g\r\n'],
    ['header-comma', frame(-18369, 2, 'g', { motion: 'moving' }), 'US,-00183.69  g\r\n'],
    ['header-comma', frame(0, 1, 'g', { range: 'over' }), 'OL,+9999999.9  g\r\n'],
    ['header-mode-comma', frame(1250, 3, 'kg'), 'ST,GS,+  1.250kg\r\n'],
    ['letter-reply', frame(10_000, 2, 'g'), 'S S     100.00 g\r\n'],
    ['letter-reply', frame(9_987, 2, 'g', { motion: 'moving' }), 'S D      99.87 g\r\n'],
    ['letter-reply', frame(0, 2, 'g', { range: 'over' }), 'S +\r\n'],
    ['letter-reply', frame(0, 2, 'g', { range: 'under' }), 'S -\r\n'],
    ['right-query', frame(19_221, 2, 'g'), '    192.21 g\r\n'],
    ['right-query', frame(1, 2, 'g', { motion: 'moving' }), '      0.01 g     ?\r\n'],
  ])('%s %#', (shape, what, expected) => {
    expect(say(shape, what)).toBe(expected);
  });

  it('echo-marker by the columns of its layout: 5 marker, 7 sign, 8-16 mass, 18-20 unit', () => {
    const line = say('echo-marker', frame(185, 1, 'kg', { motion: 'moving' }));
    expect(line).toBe('SI  ?       18.5 kg \r\n');
    expect(line[4]).toBe('?');
    expect(line.slice(7, 16)).toBe('     18.5');
    expect(line.slice(17, 20)).toBe('kg ');
    expect(text(echoMarker(frame(-5, 1, 'g', { range: 'under' }), 'S'))).toMatch(/^S {3}v -/);
  });

  it('stx-status: 18 bytes, 1.250 kg by its digits, and a sum of all bits 0-6 that is zero', () => {
    const bytes = ENCODE['stx-status'](frame(1250, 3, 'kg'), { by: 1, decimals: 3 });
    expect(bytes.length).toBe(18);
    expect(text(bytes.slice(4, 16))).toBe('001250000000');
    expect([bytes[0], bytes[16]]).toEqual([0x02, 0x0d]);
    expect((bytes[1] ?? 0) & 7).toBe(5);
    expect(bytes.reduce((sum, byte) => sum + (byte & 0x7f), 0) & 0x7f).toBe(0);
  });

  it('probe-line: the document’s own example', () => {
    expect(text(probeLine('lye', { celsius: 43.25 }))).toBe('P1 L 43.250 C ok*B256\r\n');
  });
});

/** Decodes a stream of one frame repeated: decoders believe no layout before they have seen it more than once. */
const decoded = (shape: ScaleShape | 'probe-line', bytes: Uint8Array): Reading | null => {
  let last: Reading | null = null;
  const sink = { reading: (reading: Reading) => void (last = reading), fault: () => {} };
  const wire = createWire({ shape, instrument: as('scale'), use: null, sink });
  for (let i = 0; i < 6; i += 1) wire.push(bytes, monotonic(i * 100));
  return last;
};

describe('our decoders read what the encoders send', () => {
  it.each(SCALE_SHAPES)('%s: figure, unit and motion, within half a step of the mass', (shape) => {
    fc.assert(
      fc.property(
        fc.integer({ min: -1_900, max: 5_000_000 }),
        fc.constantFrom(...UNITS[shape]),
        fc.constantFrom(10, 20, 50, 100, 500, 1_000),
        fc.constantFrom('stable' as const, 'moving' as const),
        (mass, unit, division, motion) => {
          fc.pre(holds(shape, 5_000_000, division, unit));
          const step = stepIn(unit, division);
          const shown = figure(mass, unit, step);
          const reading = decoded(shape, ENCODE[shape]({ ...shown, motion, range: 'in' }, step));
          expect(reading).toMatchObject({ kind: 'mass', unit, motion, range: 'in' });
          if (reading?.kind !== 'mass' || reading.mass === null) throw new Error('no mass');
          const stepMg = (step.by * Number(NANOGRAMS_PER[unit])) / 10 ** step.decimals / 1e6;
          expect(Math.abs(reading.mass - mass)).toBeLessThanOrEqual(stepMg / 2 + 0.501);
        },
      ),
      { numRuns: 200 },
    );
  });

  it.each(SCALE_SHAPES)('%s: out of range is never a weight', (shape) => {
    const unit = UNITS[shape][0] ?? 'g';
    for (const range of ['over', 'under'] as const) {
      const step = stepIn(unit, 100);
      const reading = decoded(shape, ENCODE[shape]({ ...figure(5_000_000, unit, step), motion: 'moving', range }, step));
      // The layout of right-query has no mark for it: nothing readable is sent.
      if (shape === 'right-query') expect(reading).toBeNull();
      else expect(reading).toMatchObject({ mass: null, range });
    }
  });

  it('probe-line: values to the thousandth, words as words', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -55 * 16, max: 125 * 16 }),
        fc.constantFrom('lye' as const, 'oils' as const, 'room' as const),
        (n, use) => {
          const reading = decoded('probe-line', probeLine(use, { celsius: n / 16 }));
          expect(reading).toMatchObject({ kind: 'temperature', use, fault: null });
          if (reading?.kind === 'temperature') expect(Math.abs((reading.value ?? Infinity) - (n / 16) * 1_000)).toBeLessThanOrEqual(0.5001);
        },
      ),
    );
    for (const word of PROBE_WORDS)
      expect(decoded('probe-line', probeLine('oils', { word }))).toMatchObject({
        value: null,
        fault: word === 'error' ? 'probe-error' : word,
      });
  });
});

describe('steps of a display', () => {
  it.each<[MassUnit, number, number, number]>([
    ['g', 100, 1, 1],
    ['g', 10, 1, 2],
    ['g', 20, 2, 2],
    ['kg', 100, 1, 4],
    ['oz', 100, 5, 3],
    ['lb', 100, 5, 4],
  ])('%s at %i mg counts by %i in decimal %i', (unit, division, by, decimals) => {
    expect(stepIn(unit, division)).toEqual({ by, decimals });
  });

  it('knows what a shape cannot show', () => {
    expect(holds('stx-status', 5_000_000, 100, 'kg')).toBe(true);
    expect(holds('stx-status', 5_000_000, 1, 'kg')).toBe(false);
    expect(holds('header-mode-comma', 5_000_000, 100, 'kg')).toBe(true);
    expect(holds('header-mode-comma', 5_000_000, 100, 'g')).toBe(false);
  });
});

describe('polls', () => {
  it('are answered as the layouts say, and ignored by shapes that only stream', () => {
    expect(POLL['echo-marker']('SI')).toEqual({ kind: 'now', as: 'SI' });
    expect(POLL['echo-marker']('S')).toMatchObject({ kind: 'when-stable', first: 'S A', late: 'S E' });
    expect(POLL['letter-reply']('S')).toMatchObject({ kind: 'when-stable', late: 'S I' });
    expect(POLL['letter-reply']('XYZ')).toEqual({ kind: 'say', text: 'ES' });
    expect(POLL['right-query']('IP')).toMatchObject({ kind: 'now' });
    for (const shape of ['header-comma', 'header-mode-comma', 'stx-status'] as const) expect(POLL[shape]('SI')).toBeNull();
  });
});
