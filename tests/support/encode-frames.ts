import type { Motion, Range } from '#lib/measure/reading';
import type { ScaleShape } from '#lib/measure/shape';
import type { MassUnit } from '#lib/units/mass';

/**
 * Writes the frames an instrument would send, from the layouts alone. Shares no code with the decoders nor with the practice
 * bench: two readings of one layout can disagree, and then a test says so.
 */
export interface Shown {
  /** What the display shows, sign aside, as a whole number of last digits. */
  readonly count: number;
  readonly negative: boolean;
  readonly decimals: number;
  readonly unit: MassUnit | 'pcs';
  readonly motion: Exclude<Motion, 'unstated'>;
  readonly range: Range;
  readonly weighing: 'gross' | 'net';
}

/** The two spellings of the one binary shape count as shapes of their own in tests. */
export const SPOKEN = [
  'header-comma',
  'header-mode-comma',
  'echo-marker',
  'letter-reply',
  'right-query',
  'stx-status, checked',
  'stx-status, plain',
] as const;
export type Spoken = (typeof SPOKEN)[number];

export const shapeOf = (spoken: Spoken): ScaleShape => (spoken.startsWith('stx-status') ? 'stx-status' : (spoken as ScaleShape));

export const still = (count: number, decimals: number, unit: Shown['unit'] = 'g'): Shown => ({
  count,
  negative: false,
  decimals,
  unit,
  motion: 'stable',
  range: 'in',
  weighing: 'gross',
});

/** `1234` with two decimals is `12.34`; always a digit before the point. */
export const figure = ({ count, decimals }: Pick<Shown, 'count' | 'decimals'>): string => {
  const digits = String(count).padStart(decimals + 1, '0');
  return decimals === 0 ? digits : `${digits.slice(0, -decimals)}.${digits.slice(-decimals)}`;
};

export const bytesOf = (text: string): Uint8Array => Uint8Array.from(text, (letter) => letter.charCodeAt(0));

export const joined = (...parts: readonly Uint8Array[]): Uint8Array => {
  const whole = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
};

const LINES: Readonly<Record<Exclude<ScaleShape, 'stx-status'>, (shown: Shown) => string>> = {
  'header-comma': (shown) => {
    const sign = shown.range === 'under' || (shown.range === 'in' && shown.negative) ? '-' : '+';
    const unit = shown.unit.padStart(3);
    if (shown.range !== 'in') return `OL,${sign}9999999.9${unit}`;
    return `${shown.motion === 'stable' ? 'ST' : 'US'},${sign}${figure(shown).padStart(8, '0')}${unit}`;
  },
  'header-mode-comma': (shown) => {
    const sign = shown.range === 'under' || (shown.range === 'in' && shown.negative) ? '-' : '+';
    const state = shown.range !== 'in' ? 'OL' : shown.motion === 'stable' ? 'ST' : 'US';
    const data = shown.range === 'in' ? figure(shown).padStart(7) : ' '.repeat(7);
    return `${state},${shown.weighing === 'gross' ? 'GS' : 'NT'},${sign}${data}${shown.unit}`;
  },
  'echo-marker': (shown) => {
    if (shown.range !== 'in') return `SI ${shown.range === 'over' ? '^' : 'v'}`;
    return `SI ${shown.motion === 'stable' ? ' ' : '?'} ${shown.negative ? '-' : ' '}${figure(shown).padStart(9)} ${shown.unit.padEnd(3)}`;
  },
  'letter-reply': (shown) => {
    if (shown.range !== 'in') return shown.range === 'over' ? 'S +' : 'S -';
    return `S ${shown.motion === 'stable' ? 'S' : 'D'} ${((shown.negative ? '-' : '') + figure(shown)).padStart(10)} ${shown.unit}`;
  },
  'right-query': (shown) => {
    if (shown.range !== 'in') throw new Error('the layout has no frame for a scale out of range');
    const state = shown.motion === 'stable' ? '' : '?';
    return `${((shown.negative ? '-' : '') + figure(shown)).padStart(10)} ${shown.unit.padEnd(5)} ${state}`.trimEnd();
  },
};

const stx = (shown: Shown, checked: boolean): Uint8Array => {
  if (shown.unit !== 'kg' && shown.unit !== 'lb') throw new Error('this encoder states kg or lb');
  const inRange = shown.range === 'in';
  const a = 0b0010_0000 + 0b1000 + (2 + shown.decimals);
  let b = 0b0010_0000;
  if (shown.weighing === 'net') b += 1;
  if ((inRange && shown.negative) || shown.range === 'under') b += 2;
  if (!inRange) b += 4;
  if (shown.motion === 'moving') b += 8;
  if (shown.unit === 'kg') b += 16;
  const body = [2, a, b, 0b0010_0000, ...bytesOf(String(inRange ? shown.count : 0).padStart(6, '0')), ...bytesOf('000000'), 13];
  const sum = body.reduce((total, byte) => total + byte, 0);
  return Uint8Array.from(checked ? [...body, (128 - (sum % 128)) % 128] : body);
};

export const encode = (spoken: Spoken, shown: Shown): Uint8Array => {
  const shape = shapeOf(spoken);
  return shape === 'stx-status' ? stx(shown, spoken === 'stx-status, checked') : bytesOf(`${LINES[shape](shown)}\r\n`);
};

/** Bytes after which a new wire believes every whole frame laid out like `shown`. */
export const leadIn = (spoken: Spoken, shown: Shown): Uint8Array => {
  const frame = encode(spoken, { ...shown, range: 'in' });
  return shapeOf(spoken) === 'stx-status' ? joined(frame, frame, frame) : joined(bytesOf('\r\n'), frame);
};

/** CRC-16 with reflected polynomial 0xA001, bit by bit. */
const crc16 = (text: string): number => {
  let crc = 0;
  for (const byte of bytesOf(text)) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit += 1) crc = crc % 2 === 1 ? (crc >> 1) ^ 0xa001 : crc >> 1;
  }
  return crc;
};

/** One line of our probe line: `probe('L', '43.250', 'C', 'ok')`. */
export const probe = (letter: string, value: string, unit: string, status: string): Uint8Array =>
  checkedLine(`P1 ${letter} ${value} ${unit} ${status}`);

/** A probe line of version 2: what the board measured, as words. */
export const rawProbe = (letter: string, words: string): Uint8Array => checkedLine(`P2 ${letter} ${words}`);

const checkedLine = (said: string): Uint8Array => bytesOf(`${said}*${crc16(said).toString(16).toUpperCase().padStart(4, '0')}\r\n`);
