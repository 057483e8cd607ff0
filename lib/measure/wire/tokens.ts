import type { MassUnit } from '#lib/units/mass';
import type { Found } from './types';

export const SPACE = 0x20;
export const PLUS = 0x2b;
export const COMMA = 0x2c;
export const MINUS = 0x2d;
export const POINT = 0x2e;
export const QUESTION = 0x3f;

const ZERO = 0x30;
const NINE = 0x39;

/** More digits than a double holds exactly are no weight. */
const MOST_DIGITS = 15;

export const skipSpaces = (bytes: Uint8Array, from: number, to: number): number => {
  let at = from;
  while (at < to && bytes[at] === SPACE) at += 1;
  return at;
};

export const isSpace = (bytes: Uint8Array, at: number, to: number): boolean => at < to && bytes[at] === SPACE;

/** First position at or after `from` that is a space, or `to`. */
export const skipToken = (bytes: Uint8Array, from: number, to: number): number => {
  let at = from;
  while (at < to && bytes[at] !== SPACE) at += 1;
  return at;
};

export const isUpper = (byte: number | undefined): boolean => byte !== undefined && byte >= 0x41 && byte <= 0x5a;
export const isLetter = (byte: number | undefined): boolean => isUpper(byte) || (byte !== undefined && byte >= 0x61 && byte <= 0x7a);

/** Bytes known to be ASCII, as text. */
export const asciiText = (bytes: Uint8Array, from: number, to: number): string => {
  let text = '';
  for (let at = from; at < to; at += 1) text += String.fromCharCode(bytes[at] as number);
  return text;
};

/**
 * Reads `[sign][spaces]digits[.digits]` into `found`; spaces between sign and digits are layout, inside the digits they are a
 * fault. Returns the position behind it, or -1 when no plain decimal stands there (`Err`, `--.-`, `1.2.3`, `.5`, `5.`, 16 digits).
 */
export const scanDecimal = (bytes: Uint8Array, from: number, to: number, found: Found): number => {
  let at = from;
  const sign = bytes[at];
  const signed = sign === PLUS || sign === MINUS;
  if (signed) at = skipSpaces(bytes, at + 1, to);
  const first = at;
  let mantissa = 0;
  let point = -1;
  for (; at < to; at += 1) {
    const byte = bytes[at] as number;
    if (byte >= ZERO && byte <= NINE) mantissa = mantissa * 10 + (byte - ZERO);
    else if (byte === POINT && point < 0 && at > first) point = at;
    else break;
  }
  const digits = at - first - (point < 0 ? 0 : 1);
  if (digits === 0 || digits > MOST_DIGITS || point === at - 1) return -1;
  found.negative = sign === MINUS;
  found.mantissa = mantissa;
  found.decimals = point < 0 ? 0 : at - 1 - point;
  const text = asciiText(bytes, first, at);
  found.text = signed ? (sign === MINUS ? '-' : '+') + text : text;
  return at;
};

const LOWER_G = 0x67;
const LOWER_K = 0x6b;
const LOWER_M = 0x6d;
const LOWER_L = 0x6c;
const LOWER_B = 0x62;
const LOWER_O = 0x6f;
const LOWER_Z = 0x7a;

/** The unit spelt by the whole token `[from, to)`; `null` for any other spelling: `ozt` is not `oz`, `G` may be anything. */
export const unitOf = (bytes: Uint8Array, from: number, to: number): MassUnit | null => {
  const first = bytes[from];
  if (to - from === 1) return first === LOWER_G ? 'g' : null;
  if (to - from !== 2) return null;
  const second = bytes[from + 1];
  if (second === LOWER_G) return first === LOWER_K ? 'kg' : first === LOWER_M ? 'mg' : null;
  if (first === LOWER_L && second === LOWER_B) return 'lb';
  return first === LOWER_O && second === LOWER_Z ? 'oz' : null;
};

/** Reads `[spaces]unit[spaces]` up to `to`, exactly. */
export const endsWithUnit = (bytes: Uint8Array, from: number, to: number, found: Found): 'unknown-unit' | 'grammar' | null => {
  const first = skipSpaces(bytes, from, to);
  const last = skipToken(bytes, first, to);
  if (skipSpaces(bytes, last, to) !== to) return 'grammar';
  found.unit = unitOf(bytes, first, last);
  return found.unit === null ? 'unknown-unit' : null;
};

export const reset = (found: Found): void => {
  found.text = '';
  found.negative = false;
  found.mantissa = 0;
  found.decimals = 0;
  found.countBy = 1;
  found.unit = null;
  found.motion = 'unstated';
  found.range = 'in';
  found.weighing = 'unstated';
  found.place = -1;
};
