import type { MassUnit } from '#lib/units/mass';
import type { Decode } from './types';
import { MINUS, POINT, ZERO, asciiText, isDigit } from './tokens';

/** Status byte A, bits 0-2: digits behind the point; -1 is times ten. `null`: not given. From a public instrument manual. */
const DECIMALS: readonly (number | null)[] = [null, -1, 0, 1, 2, 3, 4, 5];
/** Status byte A, bits 3-4: steps the last digit counts by. Same source. */
const COUNT_BY: readonly (number | null)[] = [null, 1, 2, 5];

/** Status byte B. From memory; imitations of this shape set its remaining bits differently. */
const NET = 0x01;
const NEGATIVE = 0x02;
const OUT_OF_RANGE = 0x04;
const MOTION = 0x08;
const KILOGRAMS = 0x10;

/** Status byte C, bits 0-2: 0 leaves the unit to B (kg or lb), 1 grams, 3 ounces; the others are no unit of ours. From memory. */
const OWN_UNIT: Readonly<Record<number, MassUnit>> = { 1: 'g', 3: 'oz' };

/**
 * `STX A B C wwwwww tttttt CR`: three status bytes, six digits of weight, six of tare. The weight is the one displayed; the tare is
 * checked to be digits and not used, because tare is taken in software only.
 */
export const stxStatus: Decode = (bytes, from, to, found) => {
  const a = bytes[from + 1] as number;
  const b = bytes[from + 2] as number;
  const c = bytes[from + 3] as number;
  const decimals = DECIMALS[a & 7];
  const countBy = COUNT_BY[(a >> 3) & 3];
  // Bit 5 of A is always set and bit 6 never.
  if (to - from !== 17 || (a & 0x60) !== 0x20 || decimals == null || countBy == null) return 'grammar';
  const weight = sixDigits(bytes, from + 4);
  if (weight < 0 || sixDigits(bytes, from + 10) < 0) return 'bad-number';
  const own = c & 7;
  const unit = own === 0 ? ((b & KILOGRAMS) === 0 ? 'lb' : 'kg') : OWN_UNIT[own];
  if (unit === undefined) return 'unknown-unit';
  const negative = (b & NEGATIVE) !== 0;
  found.unit = unit;
  found.weighing = (b & NET) === 0 ? 'gross' : 'net';
  found.decimals = Math.max(0, decimals);
  found.countBy = decimals < 0 ? countBy * 10 : countBy;
  if ((b & OUT_OF_RANGE) !== 0) {
    found.range = negative ? 'under' : 'over';
    return null;
  }
  found.motion = (b & MOTION) === 0 ? 'stable' : 'moving';
  found.negative = negative;
  found.place = decimals;
  found.mantissa = decimals < 0 ? weight * 10 : weight;
  found.text = figureOf(bytes, from + 4, decimals, negative);
  return null;
};

/** Sign, six digits and point, put together before they become a string, for speed. */
const figure = new Uint8Array(8);

const figureOf = (bytes: Uint8Array, from: number, decimals: number, negative: boolean): string => {
  let length = 0;
  if (negative) figure[length++] = MINUS;
  for (let digit = 0; digit < 6; digit += 1) {
    if (digit === 6 - decimals) figure[length++] = POINT;
    figure[length++] = bytes[from + digit] as number;
  }
  if (decimals < 0) figure[length++] = ZERO;
  return asciiText(figure, 0, length);
};

const sixDigits = (bytes: Uint8Array, from: number): number => {
  let value = 0;
  for (let at = from; at < from + 6; at += 1) {
    const byte = bytes[at] as number;
    if (!isDigit(byte)) return -1;
    value = value * 10 + byte - ZERO;
  }
  return value;
};
