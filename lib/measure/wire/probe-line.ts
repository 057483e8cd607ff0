import type { WireFault } from '#lib/measure/instrument';
import type { ProbeFault, ProbeUse } from '#lib/measure/reading';
import { milliCelsiusOf } from '#lib/units/temperature';
import type { MilliCelsius } from '#lib/units/temperature';
import { crc16 } from './crc16';
import { rawTemperature } from './probe-raw';
import { MINUS, POINT, SPACE, ZERO, asciiText, isDigit, skipToken } from './tokens';

/**
 * Our probe line, version 1. ASCII, one line per probe and sample, at least one a second:
 *
 *     P1 L 43.250 C ok*B256
 *
 * `P1` · channel letter (L lye, O oils, R room, B batter, M mould, `-` unassigned) · value as a decimal with one to three places, `-`
 * in front when negative, a bare `-` when there is none · `C` or `F` · status word · `*` and the CRC-16 (`crc16`, four capital hex digits)
 * of all before the `*` · CR LF. Single spaces, nothing optional. A value stands exactly when the status is `ok`.
 * Version 2 says what the board measured instead, and the temperature is worked out here: `P2 L pt100 119.40*` and its CRC.
 * hardware/PROBE-LINE.md says the same for whoever builds a board.
 */
export interface ProbeFound {
  /** `null`: unassigned on the board. */
  use: ProbeUse | null;
  text: string;
  value: MilliCelsius | null;
  fault: ProbeFault | null;
}

/** By channel letter; `null` for `-`. */
const USES: ReadonlyMap<number, ProbeUse | null> = new Map<number, ProbeUse | null>([
  [0x4c, 'lye'],
  [0x4f, 'oils'],
  [0x52, 'room'],
  [0x42, 'batter'],
  [0x4d, 'mould'],
  [MINUS, null],
]);

/** What a board may say instead of a value, and what it means here. */
const STATUS: ReadonlyMap<string, ProbeFault> = new Map<string, ProbeFault>([
  ['disconnected', 'disconnected'],
  ['shorted', 'shorted'],
  ['power-on-value', 'power-on-value'],
  ['checksum', 'checksum'],
  ['out-of-range', 'out-of-range'],
  ['error', 'probe-error'],
]);

const STAR = 0x2a;
/** Where the value begins, behind `P1 L `. */
const VALUE = 5;
const LONGEST_VALUE = 12;

/** Reads one whole line. A word where the number should be (`NaN`, `Err`, `OL`) is a reading without a number, not a fault of the line. */
export const probeLine = (bytes: Uint8Array, from: number, to: number): ProbeFound | WireFault => {
  const star = to - 5;
  if (star - from < VALUE + 5 || bytes[star] !== STAR) return 'grammar';
  if (hexOf(bytes, star + 1) !== crc16(bytes, from, star)) return 'checksum';
  const use = USES.get(bytes[from + 3] as number);
  if (!startsLine(bytes, from) || use === undefined) return 'grammar';
  if (bytes[from + 1] === TWO) return rawLine(asciiText(bytes, from + VALUE, star), use);
  const value = from + VALUE;
  const end = skipToken(bytes, value, star);
  // Behind the value: a space, one letter of unit, a space, the status.
  if (end === value || end - value > LONGEST_VALUE || end + 4 > star || bytes[end + 2] !== SPACE) return 'grammar';
  const unit = bytes[end + 1] === C ? 'C' : bytes[end + 1] === F ? 'F' : null;
  if (unit === null) return 'unknown-unit';
  const text = asciiText(bytes, value, end);
  const status = end + 3;
  if (star - status !== 2 || bytes[status] !== LOWER_O || bytes[status + 1] !== LOWER_K) {
    const fault = STATUS.get(asciiText(bytes, status, star));
    return fault !== undefined && text === '-' ? { use, text: '', value: null, fault } : 'grammar';
  }
  const thousandths = thousandthsOf(bytes, value, end);
  if (thousandths === null) return { use, text, value: null, fault: 'not-a-number' };
  return { use, text, value: milliCelsiusOf(thousandths, unit), fault: null };
};

const rawLine = (text: string, use: ProbeUse | null): ProbeFound | WireFault => {
  const found = rawTemperature(text);
  if (found === null) return 'grammar';
  return { use, text, value: found.value, fault: found.value === null ? 'out-of-range' : null };
};

const P = 0x50;
const ONE = 0x31;
const TWO = 0x32;
const C = 0x43;
const F = 0x46;
const LOWER_O = 0x6f;
const LOWER_K = 0x6b;

const startsLine = (bytes: Uint8Array, from: number): boolean =>
  bytes[from] === P && (bytes[from + 1] === ONE || bytes[from + 1] === TWO) && bytes[from + 2] === SPACE && bytes[from + 4] === SPACE;

/** Four capital hex digits as a number, -1 when they are not. */
const hexOf = (bytes: Uint8Array, from: number): number => {
  let value = 0;
  for (let at = from; at < from + 4; at += 1) {
    const byte = bytes[at] as number;
    const digit = isDigit(byte) ? byte - ZERO : byte >= 0x41 && byte <= F ? byte - 0x37 : -1;
    if (digit < 0) return -1;
    value = value * 16 + digit;
  }
  return value;
};

/** `[-]` one to three digits, point, one to three digits, in thousandths; `null` for anything else. */
const thousandthsOf = (bytes: Uint8Array, from: number, to: number): number | null => {
  const first = bytes[from] === MINUS ? from + 1 : from;
  let value = 0;
  let point = -1;
  for (let at = first; at < to; at += 1) {
    const byte = bytes[at] as number;
    if (isDigit(byte)) value = value * 10 + byte - ZERO;
    else if (byte === POINT && point < 0) point = at;
    else return null;
  }
  const places = to - 1 - point;
  if (point - first < 1 || point - first > 3 || places < 1 || places > 3) return null;
  const thousandths = value * (places === 1 ? 100 : places === 2 ? 10 : 1);
  return first === from ? thousandths : 0 - thousandths;
};
