import type { ScaleFrame } from './frame';

const STX = 0x02;
const CR = 0x0d;
/** Bits 0–2 of the first status byte by decimals shown: 2 = units, 3 = 0.1 … 7 = 0.00001. */
const DECIMAL_CODE = [2, 3, 4, 5, 6, 7] as const;
/** Bits 3–4: count-by. */
const COUNT_BY = { 1: 0b01, 2: 0b10, 5: 0b11 } as const;

/** Bits of the second status byte; recalled, the manual's page was not seen. */
const NEGATIVE = 0x02;
const OUT_OF_RANGE = 0x04;
const MOTION = 0x08;
const KILOGRAMS = 0x10;
const ALWAYS = 0x20;

/**
 * `STX A B C wwwwww tttttt CR CKS`, 18 bytes: three status bytes, six digits of weight, six of tare (none here), and a checksum, the
 * two's complement of the sum of bits 0–6 of all bytes before it. States kg or lb only.
 */
export const stxStatus = (frame: ScaleFrame, by: 1 | 2 | 5 = 1): Uint8Array => {
  if (frame.unit !== 'kg' && frame.unit !== 'lb') throw new RangeError(`an stx-status frame states kg or lb, not ${frame.unit}`);
  const code = DECIMAL_CODE[frame.decimals];
  if (code === undefined) throw new RangeError(`an stx-status frame has at most 5 decimals, not ${frame.decimals}`);
  const negative = frame.range === 'under' || (frame.range === 'in' && frame.count < 0);
  const weight = frame.range === 'in' ? Math.abs(frame.count) : 0;
  const bytes = [
    STX,
    ALWAYS | (COUNT_BY[by] << 3) | code,
    ALWAYS |
      (negative ? NEGATIVE : 0) |
      (frame.range === 'in' ? 0 : OUT_OF_RANGE) |
      (frame.motion === 'moving' ? MOTION : 0) |
      (frame.unit === 'kg' ? KILOGRAMS : 0),
    ALWAYS,
    ...sixDigits(weight),
    ...sixDigits(0),
    CR,
  ];
  return Uint8Array.from([...bytes, checksum(bytes)]);
};

const sixDigits = (value: number): number[] => Array.from(String(value).padStart(6, '0').slice(-6), (digit) => digit.charCodeAt(0));

const checksum = (bytes: readonly number[]): number => (0x80 - (bytes.reduce((sum, byte) => sum + (byte & 0x7f), 0) & 0x7f)) & 0x7f;
