import fc from '#tests/support/property';
import { describe, expect, it } from 'vitest';
import { PROBE_SHAPES, SCALE_SHAPES } from '#lib/measure/shape';
import { createIdentifier } from '#lib/measure/wire/index';
import { monotonic } from '#lib/units/time';
import { SPOKEN, type Shown, type Spoken, bytesOf, encode, figure, joined, leadIn, probe, shapeOf } from '#tests/support/encode-frames';
import { exactMilligrams } from '#tests/support/exact-mass';
import { hear, listen, told } from '#tests/support/listen';
import { type Line, overLine } from '#tests/support/uart';

const SHAPES = [...SCALE_SHAPES, ...PROBE_SHAPES];

/** Decimals and unit belong to an instrument and stay; the rest changes from frame to frame. */
const instrument = fc.record({ decimals: fc.integer({ min: 1, max: 4 }), unit: fc.constantFrom('kg' as const, 'lb' as const) });
const shown = ({ decimals, unit }: Pick<Shown, 'decimals' | 'unit'>): fc.Arbitrary<Shown> =>
  fc.record({
    count: fc.integer({ min: 0, max: 89_999 }),
    negative: fc.boolean(),
    decimals: fc.constant(decimals),
    unit: fc.constant(unit),
    motion: fc.constantFrom('stable' as const, 'moving' as const),
    range: fc.constantFrom('in' as const, 'in' as const, 'in' as const, 'over' as const, 'under' as const),
    weighing: fc.constantFrom('gross' as const, 'net' as const),
  });
const pour = instrument.chain((kind) => fc.array(shown(kind), { minLength: 1, maxLength: 12 }));

const say = (spoken: Spoken, weights: readonly Shown[]): { stream: Uint8Array; said: readonly Shown[] } => {
  // One layout has no frame for a scale out of range.
  const said = spoken === 'right-query' ? weights.filter(({ range }) => range === 'in') : weights;
  return { stream: joined(leadIn(spoken, weights[0] as Shown), ...said.map((weight) => encode(spoken, weight))), said };
};

const signed = (weight: Shown): number => {
  const size = exactMilligrams(figure(weight), weight.unit === 'pcs' ? 'g' : weight.unit);
  return weight.negative ? 0 - size : size;
};

const line = (baudRate: number): Line => ({ baudRate, dataBits: 8, parity: 'none' });

/** Chunk sizes to cut a stream by, over and over. */
const cuts = fc.array(fc.integer({ min: 1, max: 64 }), { minLength: 1, maxLength: 20 });

const chunked = (bytes: Uint8Array, sizes: readonly number[]): Uint8Array[] => {
  const chunks: Uint8Array[] = [];
  let at = 0;
  for (let turn = 0; at < bytes.length; turn += 1) {
    const size = sizes[turn % sizes.length] ?? 1;
    chunks.push(bytes.slice(at, at + size));
    at += size;
  }
  return chunks;
};

describe.each(SPOKEN)('%s', (spoken) => {
  it('A8: everything an encoder of its own can say comes back as said', () => {
    fc.assert(
      fc.property(pour, (weights) => {
        const { stream, said } = say(spoken, weights);
        const heard = hear(shapeOf(spoken), stream).masses();
        expect(heard.map(({ range, mass }) => [range, mass])).toEqual(
          said.map((weight) => [weight.range, weight.range === 'in' ? signed(weight) : null]),
        );
        for (const [index, { motion, unit, text }] of heard.entries()) {
          const weight = said[index] as Shown;
          expect(unit).toBe(spoken === 'letter-reply' || spoken === 'echo-marker' || weight.range === 'in' ? weight.unit : unit);
          expect(motion).toBe(weight.range === 'in' ? weight.motion : 'unstated');
          expect(text).toBe(text.replaceAll(' ', ''));
          expect(weight.range === 'in' ? Number(text) : 0).toBeCloseTo(
            weight.range === 'in' ? (weight.negative ? -1 : 1) * Number(figure(weight)) : 0,
          );
        }
      }),
    );
  });

  it('B20: chunks of any size give identical readings and faults', () => {
    fc.assert(
      fc.property(pour, fc.uint8Array({ maxLength: 40 }), cuts, (weights, junk, sizes) => {
        const stream = joined(junk, say(spoken, weights).stream, junk, say(spoken, weights).stream);
        const whole = hear(shapeOf(spoken), stream);
        const parts = listen(shapeOf(spoken));
        for (const chunk of chunked(stream, sizes)) parts.wire.push(chunk, monotonic(0));
        expect(parts.readings.map(told)).toEqual(whole.readings.map(told));
        expect(parts.faults).toEqual(whole.faults);
      }),
    );
  });

  it('a wrong speed is never a weight', () => {
    const speeds = fc.constantFrom(1200, 2400, 4800, 9600, 19_200, 38_400, 115_200);
    fc.assert(
      fc.property(pour, speeds, speeds, (weights, sent, read) => {
        fc.pre(sent !== read);
        const { stream } = say(spoken, [...weights, ...weights, ...weights]);
        expect(hear(shapeOf(spoken), overLine(stream, line(sent), line(read))).readings).toEqual([]);
      }),
    );
  });

  it.each(['even', 'odd'] as const)('7 bits and %s parity read as 8 bits: what gets through is what was sent', (parity) => {
    fc.assert(
      fc.property(pour, (weights) => {
        const { stream, said } = say(spoken, weights);
        const through = overLine(stream, { baudRate: 9600, dataBits: 7, parity }, { baudRate: 9600, dataBits: 8, parity: 'none' });
        const heard = hear(shapeOf(spoken), through);
        const sent = new Set<number | null>(said.map((weight) => (weight.range === 'in' ? signed(weight) : null)));
        for (const value of heard.numbers()) expect(sent).toContain(value);
        expect(heard.readings.length).toBeLessThanOrEqual(said.length);
      }),
    );
  });

  it('any one byte turned into any other makes no more than one wrong digit and sign', () => {
    fc.assert(
      fc.property(pour, fc.nat(), fc.integer({ min: 0, max: 255 }), (weights, place, byte) => {
        const { stream, said } = say(spoken, [...weights, ...weights]);
        const broken = stream.slice();
        const lead = leadIn(spoken, weights[0] as Shown).length;
        broken[lead + (place % (stream.length - lead))] = byte;
        // Out of range the binary shape carries zeros, and one byte says whether they count.
        const truth = said.map((weight) => (weight.negative ? '-' : '') + figure(weight.range === 'in' ? weight : { ...weight, count: 0 }));
        for (const reading of hear(shapeOf(spoken), broken).masses()) {
          if (reading.range !== 'in') continue;
          expect(reading.unit).toBe(weights[0]?.unit);
          // A digit turned into a minus takes the digit and brings the sign.
          const odd = spoken === 'stx-status, checked' ? 0 : 2;
          expect(truth.some((one) => unlike(one, reading.text) <= odd)).toBe(true);
        }
      }),
    );
  });
});

/** Places in which two right-justified figures differ, signs included. */
const unlike = (one: string, other: string): number => {
  const [a, b] = [one, other].map((text) => (text.startsWith('-') ? '-' : '+') + text.replace(/^[+-]/, '').padStart(15, '0')) as [
    string,
    string,
  ];
  return Array.from(a).filter((letter, at) => letter !== b[at]).length;
};

describe('bytes that mean nothing', () => {
  it.each(SHAPES)('%s: random bytes are never a reading', (shape) => {
    fc.assert(
      fc.property(fc.uint8Array({ minLength: 1, maxLength: 3000 }), (bytes) => {
        expect(hear(shape, bytes).readings).toEqual([]);
      }),
      { numRuns: 200 },
    );
  });

  it.each(SHAPES)('%s: nor are the letters of its own frames shuffled', (shape) => {
    const letters = [...bytesOf('STUSGSNTOLI?^v,+- 0123456789.kglbozmg\r\n\u0002'), 0x0a, 0x0a];
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...letters), { maxLength: 400 }), (bytes) => {
        for (const reading of hear(shape, Uint8Array.from(bytes)).masses()) {
          // An overload needs no more than two marks, and `9g` over and over is what `right-query` means by a weight.
          if (reading.range === 'in') expect(shape).toBe('right-query');
        }
      }),
      { numRuns: 300 },
    );
  });

  it('prove no shape', () => {
    fc.assert(
      fc.property(fc.uint8Array({ minLength: 1, maxLength: 3000 }), (bytes) => {
        expect(createIdentifier().push(bytes, monotonic(0))).toBeNull();
      }),
      { numRuns: 100 },
    );
  });
});

describe('probe line', () => {
  const value = fc.tuple(fc.integer({ min: -99_999, max: 150_000 }), fc.constantFrom('C', 'F'));

  it('comes back as said, in °C and in °F', () => {
    fc.assert(
      fc.property(value, ([thousandths, unit]) => {
        const text = (thousandths / 1000).toFixed(3);
        const [reading] = hear('probe-line', joined(bytesOf('\n'), probe('O', text, unit, 'ok'))).temperatures();
        // (°F − 32) / 1.8 in whole numbers, half away from zero.
        const twice = BigInt(thousandths - 32_000) * 10n;
        const rounded = Number((twice < 0n ? twice - 9n : twice + 9n) / 18n);
        expect(reading).toMatchObject({ use: 'oils', value: unit === 'C' ? thousandths : rounded, fault: null, text });
      }),
    );
  });

  it('with up to three bytes changed is never another temperature', () => {
    const change = fc.tuple(fc.nat(), fc.integer({ min: 0, max: 255 }));
    fc.assert(
      fc.property(value, fc.array(change, { minLength: 1, maxLength: 3 }), ([thousandths, unit], changes) => {
        const line = probe('O', (thousandths / 1000).toFixed(3), unit, 'ok');
        const [good] = hear('probe-line', joined(bytesOf('\n'), line)).numbers();
        const bad = line.slice();
        for (const [place, byte] of changes) bad[place % bad.length] = byte;
        for (const number of hear('probe-line', joined(bytesOf('\n'), bad)).numbers()) expect(number).toBe(good);
      }),
      { numRuns: 500 },
    );
  });
});
