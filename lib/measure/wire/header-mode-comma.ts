import type { Decode } from './types';
import { COMMA, MINUS, PLUS, SPACE, endsWithUnit, scanDecimal } from './tokens';

const S = 0x53;
const T = 0x54;
const U = 0x55;
const O = 0x4f;
const L = 0x4c;
const G = 0x47;
const N = 0x4e;

/**
 * `S1,S2,S3 data S4`: state ST/US/OL, comma, GS gross or NT net, comma, sign, digits with the point, unit.
 * `ST,GS,+  1.250kg`. An out-of-range frame may carry filler digits or blanks. From a public instrument manual, which names kg
 * and lb; the other units we know are taken when spelt in full.
 */
export const headerModeComma: Decode = (bytes, from, to, found) => {
  if (to - from < 8 || bytes[from + 2] !== COMMA || bytes[from + 5] !== COMMA) return 'grammar';
  const s1 = bytes[from];
  const s2 = bytes[from + 1];
  const out = s1 === O && s2 === L;
  if (s1 === S && s2 === T) found.motion = 'stable';
  else if (s1 === U && s2 === S) found.motion = 'moving';
  else if (!out) return 'grammar';
  const m1 = bytes[from + 3];
  const m2 = bytes[from + 4];
  if (m1 === G && m2 === S) found.weighing = 'gross';
  else if (m1 === N && m2 === T) found.weighing = 'net';
  else return 'grammar';
  const sign = bytes[from + 6];
  if (sign !== PLUS && sign !== MINUS && !(out && sign === SPACE)) return 'grammar';
  if (out) {
    found.range = sign === MINUS ? 'under' : 'over';
    const filler = scanDecimal(bytes, from + 6, to, found);
    return endsWithUnit(bytes, filler < 0 ? from + 7 : filler, to, found);
  }
  const end = scanDecimal(bytes, from + 6, to, found);
  if (end < 0) return 'bad-number';
  found.place = end - from;
  return endsWithUnit(bytes, end, to, found);
};
