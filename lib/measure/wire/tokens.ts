import type { MassUnit } from '#lib/units/mass';
import type { Found } from './types';

export const SPACE = 0x20;
export const PLUS = 0x2b;
export const COMMA = 0x2c;
export const MINUS = 0x2d;
export const POINT = 0x2e;
export const QUESTION = 0x3f;

export const ZERO = 0x30;
const NINE = 0x39;

export const isDigit = (byte: number): boolean => byte >= ZERO && byte <= NINE;

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

/** Bytes known to be ASCII, as text. Eight at a time, because this is most of what a reading costs. */
export const asciiText = (bytes: Uint8Array, from: number, to: number): string => {
  let text = '';
  let at = from;
  for (; at + 8 <= to; at += 8) text += eightOf(bytes, at);
  if (at + 4 <= to) {
    text += fourOf(bytes, at);
    at += 4;
  }
  for (; at < to; at += 1) text += String.fromCharCode(bytes[at] as number);
  return text;
};

const fourOf = (bytes: Uint8Array, at: number): string =>
  String.fromCharCode(bytes[at] as number, bytes[at + 1] as number, bytes[at + 2] as number, bytes[at + 3] as number);

const eightOf = (bytes: Uint8Array, at: number): string =>
  String.fromCharCode(
    bytes[at] as number,
    bytes[at + 1] as number,
    bytes[at + 2] as number,
    bytes[at + 3] as number,
    bytes[at + 4] as number,
    bytes[at + 5] as number,
    bytes[at + 6] as number,
    bytes[at + 7] as number,
  );

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
    if (isDigit(byte)) mantissa = mantissa * 10 + (byte - ZERO);
    else if (byte === POINT && point < 0 && at > first) point = at;
    else break;
  }
  const digits = at - first - (point < 0 ? 0 : 1);
  if (digits === 0 || digits > MOST_DIGITS || point === at - 1) return -1;
  found.negative = sign === MINUS;
  found.mantissa = mantissa;
  found.decimals = point < 0 ? 0 : at - 1 - point;
  // The sign goes along when it stands next to the digits, which saves a string.
  found.text = !signed || first === from + 1 ? asciiText(bytes, from, at) : (sign === MINUS ? '-' : '+') + asciiText(bytes, first, at);
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

export const nothingFound = (): Found => ({
  text: '',
  negative: false,
  mantissa: 0,
  decimals: 0,
  countBy: 1,
  unit: null,
  motion: 'unstated',
  range: 'in',
  weighing: 'unstated',
  place: 0,
});

/** What a decoder need not set. The digits stand only in a frame that is in range, and then it sets them all. */
export const reset = (found: Found): void => {
  found.countBy = 1;
  found.unit = null;
  found.motion = 'unstated';
  found.range = 'in';
  found.weighing = 'unstated';
};
