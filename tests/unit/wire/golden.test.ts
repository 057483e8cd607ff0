import { describe, expect, it } from 'vitest';
import type { MassReading } from '#lib/measure/reading';
import type { ScaleShape } from '#lib/measure/shape';
import { bytesOf, joined, probe } from '#tests/support/encode-frames';
import { hear } from '#tests/support/listen';

/**
 * Bytes as the layouts' own examples have them, with what they mean. Layouts: public instrument manuals; `letter-reply` and the status
 * bytes B and C of `stx-status`: from memory.
 */
const meaning = (reading: MassReading): unknown[] => [
  reading.text,
  reading.unit,
  reading.mass,
  reading.step,
  reading.motion,
  reading.range,
  reading.weighing,
];

const line = (text: string): Uint8Array => bytesOf(`${text}\r\n`);

const LINES: readonly [shape: ScaleShape, frame: string, meaning: unknown[]][] = [
  ['header-comma', 'ST,+00012.34  g', ['+00012.34', 'g', 12_340, 10, 'stable', 'in', 'unstated']],
  ['header-comma', 'US,-00183.69  g', ['-00183.69', 'g', -183_690, 10, 'moving', 'in', 'unstated']],
  ['header-comma', 'OL,+9999999.9  g', ['', 'g', null, 10, 'unstated', 'over', 'unstated']],
  ['header-comma', 'OL,-9999999.9  g', ['', 'g', null, 10, 'unstated', 'under', 'unstated']],
  ['header-comma', 'ST,+00001.234 kg', ['+00001.234', 'kg', 1_234_000, 1000, 'stable', 'in', 'unstated']],
  ['header-comma', 'ST,+00000000 mg', ['+00000000', 'mg', 0, 1, 'stable', 'in', 'unstated']],
  // 0.5 oz = 14.174 761 562 5 g; a hundredth of an ounce is 283.495 mg (avoirdupois ounce: NIST SP 811, App. B).
  ['header-comma', 'ST,+00000.50 oz', ['+00000.50', 'oz', 14_175, 283, 'stable', 'in', 'unstated']],
  ['header-mode-comma', 'ST,GS,+  1.250kg', ['+1.250', 'kg', 1_250_000, 1000, 'stable', 'in', 'gross']],
  // 1.25 lb = 566.990 462 5 g (avoirdupois pound: NIST SP 811, App. B).
  ['header-mode-comma', 'US,NT,-  1.250lb', ['-1.250', 'lb', -566_990, 454, 'moving', 'in', 'net']],
  ['header-mode-comma', 'OL,GS,+  9.999kg', ['', 'kg', null, 1000, 'unstated', 'over', 'gross']],
  ['header-mode-comma', 'OL,NT,-       kg', ['', 'kg', null, 1000, 'unstated', 'under', 'net']],
  ['echo-marker', 'SI ?       18.5 kg', ['18.5', 'kg', 18_500_000, 100_000, 'moving', 'in', 'unstated']],
  ['echo-marker', 'S          18.5 kg', ['18.5', 'kg', 18_500_000, 100_000, 'stable', 'in', 'unstated']],
  ['echo-marker', 'SI    -    18.5 kg ', ['-18.5', 'kg', -18_500_000, 100_000, 'stable', 'in', 'unstated']],
  ['echo-marker', 'SI ^', ['', 'kg', null, 100_000, 'unstated', 'over', 'unstated']],
  ['echo-marker', 'SI v        0.0 kg', ['', 'kg', null, 100_000, 'unstated', 'under', 'unstated']],
  ['letter-reply', 'S S     100.00 g', ['100.00', 'g', 100_000, 10, 'stable', 'in', 'unstated']],
  ['letter-reply', 'S D      99.87 g', ['99.87', 'g', 99_870, 10, 'moving', 'in', 'unstated']],
  ['letter-reply', 'S D     -99.87 g', ['-99.87', 'g', -99_870, 10, 'moving', 'in', 'unstated']],
  ['letter-reply', 'S +', ['', 'g', null, 10, 'unstated', 'over', 'unstated']],
  ['letter-reply', 'S -', ['', 'g', null, 10, 'unstated', 'under', 'unstated']],
  ['right-query', '    192.21 g', ['192.21', 'g', 192_210, 10, 'stable', 'in', 'unstated']],
  ['right-query', '      0.01 g     ?', ['0.01', 'g', 10, 10, 'moving', 'in', 'unstated']],
  ['right-query', '     -0.01 g     ? NET', ['-0.01', 'g', -10, 10, 'moving', 'in', 'unstated']],
  ['right-query', '    192.21 g       GROSS', ['192.21', 'g', 192_210, 10, 'stable', 'in', 'unstated']],
];

/** A frame of the same layout to lead in: the same with its state made harmless. */
const BASE: Partial<Record<ScaleShape, string>> = {
  'header-comma': 'ST,+00000.00  g',
  'header-mode-comma': 'ST,GS,+  0.000kg',
  'echo-marker': 'SI          0.0 kg',
  'letter-reply': 'S S       0.00 g',
  'right-query': '      0.00 g',
};

describe('golden lines', () => {
  it.each(LINES)('%s: %s', (shape, frame, expected) => {
    const base = expected[2] === null ? (BASE[shape] ?? '') : frame;
    const heard = hear(shape, joined(bytesOf('\n'), line(base), line(base), line(frame)));
    expect(heard.names()).toEqual(['first-partial']);
    expect(heard.masses()).toHaveLength(2);
    expect(meaning(heard.masses()[1] as MassReading)).toEqual(expected);
    expect(String.fromCharCode(...(heard.masses()[1]?.raw ?? []))).toBe(frame);
  });
});

const STX: readonly [hex: string, meaning: unknown[]][] = [
  // A 2D: three decimals, counting by one. B 30: kg, gross, still, in range. C 20: unit as B says. `001250`, tare `000000`, CR, checksum.
  ['02 2d 30 20 30 30 31 32 35 30 30 30 30 30 30 30 0d 2c', ['001.250', 'kg', 1_250_000, 1000, 'stable', 'in', 'gross']],
  ['02 2d 3b 20 30 30 31 32 35 30 30 30 30 30 30 30 0d 21', ['-001.250', 'kg', -1_250_000, 1000, 'moving', 'in', 'net']],
  // A 3C: two decimals, counting by five: 27.55 lb in steps of 0.05 lb = 22.680 g.
  ['02 3c 20 20 30 30 32 37 35 35 30 30 30 30 30 30 0d 22', ['0027.55', 'lb', 12_496_470, 22_680, 'stable', 'in', 'gross']],
  // A 29: times ten. 120 kg in steps of 10 kg.
  ['02 29 30 20 30 30 30 30 31 32 30 30 30 30 30 30 0d 35', ['0000120', 'kg', 120_000_000, 10_000_000, 'stable', 'in', 'gross']],
  // C 21: grams, whatever B says. A 2B: one decimal.
  ['02 2b 30 21 30 30 34 31 32 36 30 30 30 30 30 30 0d 28', ['00412.6', 'g', 412_600, 100, 'stable', 'in', 'gross']],
  ['02 2d 34 20 30 30 30 30 30 30 30 30 30 30 30 30 0d 30', ['', 'kg', null, 1, 'unstated', 'over', 'gross']],
  ['02 2d 36 20 30 30 30 30 30 30 30 30 30 30 30 30 0d 2e', ['', 'kg', null, 1, 'unstated', 'under', 'gross']],
];

const bytesOfHex = (hex: string): Uint8Array => Uint8Array.from(hex.split(' '), (byte) => Number.parseInt(byte, 16));

describe('golden stx-status', () => {
  it.each(STX)('%s', (hex, expected) => {
    for (const frame of [bytesOfHex(hex), bytesOfHex(hex).slice(0, 17)]) {
      const heard = hear('stx-status', joined(frame, frame, frame, frame));
      expect(meaning(heard.masses().at(-1) as MassReading)).toEqual(expected);
      expect(heard.masses().at(-1)?.raw).toEqual(frame.slice(0, 17));
    }
  });
});

describe('golden probe lines', () => {
  const PROBES: readonly [line: string, use: string, value: number | null, fault: string | null][] = [
    ['P1 L 43.250 C ok*B256', 'lye', 43_250, null],
    ['P1 O -0.5 C ok*5506', 'oils', -500, null],
    ['P1 R 68.9 F ok*6FD6', 'room', 20_500, null],
    ['P1 L - C disconnected*85B6', 'lye', null, 'disconnected'],
    ['P1 L NaN C ok*3B8E', 'lye', null, 'not-a-number'],
  ];

  it.each(PROBES)('%s', (text, use, value, fault) => {
    const heard = hear('probe-line', joined(bytesOf('\n'), line(text)));
    expect(heard.faults).toEqual([]);
    expect(heard.temperatures()).toMatchObject([{ use, value, fault }]);
  });

  it('writes the same line as the description', () => {
    expect(probe('L', '43.250', 'C', 'ok')).toEqual(line('P1 L 43.250 C ok*B256'));
  });
});
