import type { WireFault } from '#lib/measure/instrument';
import type { ProbeFault, ProbeUse } from '#lib/measure/reading';
import { type MilliCelsius, milliCelsiusOf } from '#lib/units/temperature';
import { crc16 } from './crc16';
import { asciiText } from './tokens';

/**
 * Our probe line, version 1. ASCII, one line per probe and sample, at least one a second:
 *
 *     P1 L 43.250 C ok*B256
 *
 * `P1` · channel letter (L lye, O oils, R room, B batter, M mould, `-` unassigned) · value as a decimal with one to three places, `-`
 * in front when negative, a bare `-` when there is none · `C` or `F` · status word · `*` and the CRC-16 (`crc16`, four capital hex digits)
 * of all before the `*` · CR LF. Single spaces, nothing optional. A value stands exactly when the status is `ok`.
 * hardware/PROBE-LINE.md says the same for whoever builds a board.
 */
export interface ProbeFound {
  /** `null`: unassigned on the board. */
  use: ProbeUse | null;
  text: string;
  value: MilliCelsius | null;
  fault: ProbeFault | null;
}

const USES: Readonly<Record<string, ProbeUse | null>> = { L: 'lye', O: 'oils', R: 'room', B: 'batter', M: 'mould', '-': null };

/** What a board may say instead of a value, and what it means here. */
const STATUS: Readonly<Record<string, ProbeFault | null>> = {
  ok: null,
  disconnected: 'disconnected',
  shorted: 'shorted',
  'power-on-value': 'power-on-value',
  checksum: 'checksum',
  'out-of-range': 'out-of-range',
  error: 'probe-error',
};

const LINE = /^P1 ([LORBM-]) (\S{1,12}) ([A-Z]) ([a-z-]{2,20})$/;
const VALUE = /^-?\d{1,3}\.\d{1,3}$/;
const STAR = 0x2a;

/** Reads one whole line. A word where the number should be (`NaN`, `Err`, `OL`) is a reading without a number, not a fault of the line. */
export const probeLine = (bytes: Uint8Array, from: number, to: number): ProbeFound | WireFault => {
  const star = to - 5;
  if (star <= from || bytes[star] !== STAR) return 'grammar';
  if (asciiText(bytes, star + 1, to) !== crc16(bytes, from, star).toString(16).toUpperCase().padStart(4, '0')) return 'checksum';
  const [, letter = '', text = '', unit = '', word = ''] = LINE.exec(asciiText(bytes, from, star)) ?? [];
  const use = USES[letter];
  const fault = STATUS[word];
  if (use === undefined || fault === undefined) return 'grammar';
  if (unit !== 'C' && unit !== 'F') return 'unknown-unit';
  if (fault !== null) return text === '-' ? { use, text: '', value: null, fault } : 'grammar';
  if (!VALUE.test(text)) return { use, text, value: null, fault: 'not-a-number' };
  return { use, text, value: milliCelsiusOf(text, unit), fault: null };
};
