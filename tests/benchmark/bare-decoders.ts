import type { Motion, Range } from '#lib/measure/reading';
import type { InstrumentId } from '#lib/units/id';
import type { Monotonic } from '#lib/units/time';
import type { Subject } from './decode-streams';

/** The same fields as a reading, from one regular expression and floating point; `raw` stays the parser's string. */
export interface BareReading {
  readonly kind: 'mass' | 'temperature';
  readonly instrument: InstrumentId;
  readonly seq: number;
  readonly at: Monotonic;
  readonly raw: string;
  readonly [field: string]: unknown;
}

type Decode = (line: string, at: Monotonic) => BareReading | null;

const MG: Readonly<Record<string, number>> = { mg: 1, g: 1000, kg: 1_000_000, oz: 28_349.523125, lb: 453_592.37 };

interface Fields {
  readonly text: string;
  readonly unit: string;
  readonly motion: Motion;
  readonly range: Range;
  readonly weighing: string;
}

const massDecoder =
  (pattern: RegExp, fields: (match: RegExpExecArray) => Fields) =>
  (instrument: InstrumentId): Decode => {
    let seq = 0;
    return (line, at) => {
      const match = pattern.exec(line);
      if (match === null) return null;
      const { text, unit, motion, range, weighing } = fields(match);
      const factor = MG[unit];
      if (factor === undefined) return null;
      const point = text.indexOf('.');
      const decimals = point < 0 ? 0 : text.length - point - 1;
      const mass = range === 'in' ? Math.round(Number(text) * factor) : null;
      const step = Math.max(1, Math.round(factor / 10 ** decimals));
      return { kind: 'mass', instrument, seq: (seq += 1), at, raw: line, text, unit, mass, step, motion, range, weighing };
    };
  };

const headerComma = massDecoder(/^(ST|US|OL),([+-]) *(\d+\.\d+|\d+) *([a-z]+)\r?$/, (m) => ({
  text: (m[2] ?? '') + (m[3] ?? ''),
  unit: m[4] ?? '',
  motion: m[1] === 'ST' ? 'stable' : 'moving',
  range: m[1] === 'OL' ? 'over' : 'in',
  weighing: 'unstated',
}));

const headerModeComma = massDecoder(/^(ST|US|OL),(GS|NT),([+-]) *(\d+\.\d+|\d+) *([a-z]+)\r?$/, (m) => ({
  text: (m[3] ?? '') + (m[4] ?? ''),
  unit: m[5] ?? '',
  motion: m[1] === 'ST' ? 'stable' : 'moving',
  range: m[1] === 'OL' ? 'over' : 'in',
  weighing: m[2] === 'GS' ? 'gross' : 'net',
}));

const echoMarker = massDecoder(/^[A-Z]{1,3} +([?^v]?) *([+-]?) *(\d+\.\d+|\d+) +([a-z]+) *\r?$/, (m) => ({
  text: (m[2] ?? '') + (m[3] ?? ''),
  unit: m[4] ?? '',
  motion: m[1] === '?' ? 'moving' : 'stable',
  range: m[1] === '^' ? 'over' : m[1] === 'v' ? 'under' : 'in',
  weighing: 'unstated',
}));

const letterReply = massDecoder(/^S ([SD]) +([+-]?) *(\d+\.\d+|\d+) +([a-z]+) *\r?$/, (m) => ({
  text: (m[2] ?? '') + (m[3] ?? ''),
  unit: m[4] ?? '',
  motion: m[1] === 'S' ? 'stable' : 'moving',
  range: 'in',
  weighing: 'unstated',
}));

const rightQuery = massDecoder(/^ *([+-]?) *(\d+\.\d+|\d+) +([a-z]+) *(\??) *[A-Za-z]{0,10}\r?$/, (m) => ({
  text: (m[1] ?? '') + (m[2] ?? ''),
  unit: m[3] ?? '',
  motion: m[4] === '?' ? 'moving' : 'stable',
  range: 'in',
  weighing: 'unstated',
}));

// eslint-disable-next-line no-control-regex
const STX = /\u0002([ -?])([ -~])([ -~])(\d{6})\d{6}$/;

const stxFields = (match: RegExpExecArray): Fields => {
  const decimals = ((match[1] ?? '').charCodeAt(0) & 7) - 2;
  const b = (match[2] ?? '').charCodeAt(0);
  const digits = match[4] ?? '';
  const figure = decimals > 0 ? `${digits.slice(0, -decimals)}.${digits.slice(-decimals)}` : digits;
  return {
    text: (b & 2 ? '-' : '') + figure,
    unit: b & 16 ? 'kg' : 'lb',
    motion: b & 8 ? 'moving' : 'stable',
    range: b & 4 ? 'over' : 'in',
    weighing: b & 1 ? 'net' : 'gross',
  };
};

/** The checksum stands behind the CR, so it comes as the first letter of the next line. */
const stxChecked = (instrument: InstrumentId): Decode => {
  const decode = massDecoder(STX, stxFields)(instrument);
  let before = '';
  return (line, at) => {
    const frame = before.slice(-16);
    before = line;
    let sum = 13;
    for (let i = 0; i < frame.length; i += 1) sum += frame.charCodeAt(i);
    return line.charCodeAt(0) === (-sum & 127) ? decode(frame, at) : null;
  };
};

const CRC = Array.from({ length: 256 }, (_, byte) => {
  let crc = byte;
  for (let bit = 0; bit < 8; bit += 1) crc = crc & 1 ? (crc >> 1) ^ 0xa001 : crc >> 1;
  return crc;
});
const USE: Readonly<Record<string, string>> = { L: 'lye', O: 'oils', R: 'room', B: 'batter', M: 'mould' };

const probeLine = (instrument: InstrumentId): Decode => {
  let seq = 0;
  return (line, at) => {
    const match = /^(P1 ([LORBM]) (-?\d{1,3}\.\d{1,3}) ([CF]) ok)\*([0-9A-F]{4})\r?$/.exec(line);
    if (match === null) return null;
    const [, said = '', letter = '', text = '', unit, check = ''] = match;
    let crc = 0;
    for (let i = 0; i < said.length; i += 1) crc = (crc >> 8) ^ (CRC[(crc ^ said.charCodeAt(i)) & 255] ?? 0);
    if (crc !== Number.parseInt(check, 16)) return null;
    const value = Math.round((unit === 'C' ? Number(text) : (Number(text) - 32) / 1.8) * 1000);
    return { kind: 'temperature', instrument, seq: (seq += 1), at, raw: line, use: USE[letter], value, text, fault: null };
  };
};

export const BARE: Readonly<Record<Subject, { delimiter: string; decoder: (instrument: InstrumentId) => Decode }>> = {
  'header-comma': { delimiter: '\n', decoder: headerComma },
  'header-mode-comma': { delimiter: '\n', decoder: headerModeComma },
  'echo-marker': { delimiter: '\n', decoder: echoMarker },
  'letter-reply': { delimiter: '\n', decoder: letterReply },
  'right-query': { delimiter: '\n', decoder: rightQuery },
  'stx-status, checked': { delimiter: '\r', decoder: stxChecked },
  'stx-status, plain': { delimiter: '\r', decoder: massDecoder(STX, stxFields) },
  'probe-line': { delimiter: '\n', decoder: probeLine },
};
