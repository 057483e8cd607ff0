import type { Decode } from './types';
import { COMMA, MINUS, PLUS, endsWithUnit, scanDecimal } from './tokens';

const code = (letters: string): number => (letters.charCodeAt(0) << 8) | letters.charCodeAt(1);

const STABLE = code('ST');
const MOVING = code('US');
const OUT = code('OL');
const COUNT = code('QT');

/**
 * `HH,s dddddddd uuu`: two-letter header, comma, sign, zero-padded digits with the point, unit right-justified in three.
 * `ST,+00012.34  g`, `US,-00183.69  g`, `OL,+9999999.9  g`. Header: ST stable, US moving, OL out of range (its digits are filler,
 * its sign says which end), QT a count of pieces. From a public instrument manual.
 */
export const headerComma: Decode = (bytes, from, to, found) => {
  if (to - from < 6 || bytes[from + 2] !== COMMA) return 'grammar';
  const header = ((bytes[from] as number) << 8) | (bytes[from + 1] as number);
  if (header === OUT) return outOfRange(bytes, from + 3, to, found);
  // A count is whole and good and still no weight.
  if (header === COUNT) return 'unknown-unit';
  if (header !== STABLE && header !== MOVING) return 'grammar';
  const sign = bytes[from + 3];
  if (sign !== PLUS && sign !== MINUS) return 'grammar';
  const end = scanDecimal(bytes, from + 3, to, found);
  if (end < 0) return 'bad-number';
  found.place = end - from;
  found.motion = header === STABLE ? 'stable' : 'moving';
  return endsWithUnit(bytes, end, to, found);
};

const outOfRange: Decode = (bytes, from, to, found) => {
  const sign = bytes[from];
  if (sign !== PLUS && sign !== MINUS) return 'grammar';
  const end = scanDecimal(bytes, from, to, found);
  if (end < 0) return 'bad-number';
  found.range = sign === MINUS ? 'under' : 'over';
  return endsWithUnit(bytes, end, to, found);
};
