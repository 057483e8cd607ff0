import { massOfText } from './mass-text';
import type { MassUnit, Milligrams } from './mass';
import { milliCelsius } from './temperature';
import type { MilliCelsius } from './temperature';
import type { TemperatureDisplay } from './display';

/** A number a person typed, as a plain decimal text (`1250.5`), or why it is not taken yet. */
export type Typing =
  | { readonly kind: 'number'; readonly decimal: string }
  /** "1,250" and "1.250" are a thousand to one person and one to the next: both readings are offered, none is taken. */
  | { readonly kind: 'ambiguous'; readonly readings: readonly [string, string] }
  | { readonly kind: 'unfinished' }
  | { readonly kind: 'invalid' };

/** Spaces and apostrophes group digits where people write so (SI Brochure 5.4.4; Swiss usage); never a decimal mark. */
const GROUP_SPACES = /[\s\u00a0\u202f'’]/g;

/**
 * Reads a typed number without asking the locale to guess. A comma or point is the decimal mark unless it can only be
 * grouping; where it could be either, the person says which.
 */
export const readNumber = (typed: string): Typing => {
  const text = typed.trim().replace(/^−/, '-');
  if (text === '' || text === '-' || text === '+') return { kind: 'unfinished' };
  const negative = text.startsWith('-');
  const digits = text.replace(/^[+-]/, '');
  if (!/^[\d.,\s\u00a0\u202f'’]*$/.test(digits) || !/\d/.test(digits) || digits.length > 20) return { kind: 'invalid' };
  if (/[\s\u00a0\u202f'’]/.test(digits) && !groupsOfThree(digits.replace(/[.,]\d*$/, ''), GROUP_SPACES)) return { kind: 'invalid' };
  const bare = digits.replace(GROUP_SPACES, '');
  const signed = (decimal: string): string => (negative ? `-${decimal}` : decimal);
  const marks = bare.replace(/\d/g, '');
  if (marks === '') return { kind: 'number', decimal: signed(bare) };
  if (marks.length === 1) return oneMark(bare, marks, signed);
  const last = marks.at(-1) ?? '';
  const earlier = marks.slice(0, -1);
  const group = earlier[0] ?? '';
  if (earlier.replaceAll(group, '') !== '') return { kind: 'invalid' };
  // 1,250,000: one mark repeated is grouping. 1.250,5: the last of two kinds is the decimal mark.
  if (last === group)
    return groupsOfThree(bare, group) ? { kind: 'number', decimal: signed(bare.replaceAll(group, '')) } : { kind: 'invalid' };
  const [whole = '', fraction = ''] = bare.split(last);
  if (!groupsOfThree(whole, group)) return { kind: 'invalid' };
  const plain = whole.replaceAll(group, '');
  return fraction === '' ? { kind: 'unfinished' } : { kind: 'number', decimal: signed(`${plain}.${fraction}`) };
};

const oneMark = (bare: string, mark: string, signed: (decimal: string) => string): Typing => {
  const [whole = '', fraction = ''] = bare.split(mark);
  if (fraction === '') return { kind: 'unfinished' };
  const decimal = signed(`${whole === '' ? '0' : whole}.${fraction}`);
  // Three digits after one to three that do not start with zero: grouping to some, a decimal to others.
  if (fraction.length === 3 && /^[1-9]\d{0,2}$/.test(whole)) return { kind: 'ambiguous', readings: [decimal, signed(whole + fraction)] };
  return { kind: 'number', decimal };
};

const groupsOfThree = (whole: string, separator: string | RegExp): boolean => {
  const groups = whole.split(separator);
  return groups.every((group, index) => (index === 0 ? /^\d{1,3}$/.test(group) : /^\d{3}$/.test(group)));
};

/** Milligrams of a plain decimal text in a unit; `null` when it is no weight on a bench or not above zero. */
export const massOfDecimal = (decimal: string, unit: MassUnit): Milligrams | null => {
  const read = massOfText(decimal, unit);
  return read === null || read.mass <= 0 ? null : read.mass;
};

/** Thousandths of a degree of a plain decimal text; `null` below −60 or above 300 °C, where no vessel on a bench is. */
export const temperatureOfDecimal = (decimal: string, unit: TemperatureDisplay): MilliCelsius | null => {
  const degrees = Number(decimal);
  if (!Number.isFinite(degrees)) return null;
  const thousandths = Math.round(unit === 'C' ? degrees * 1000 : ((degrees - 32) * 5000) / 9);
  return thousandths < -60_000 || thousandths > 300_000 ? null : milliCelsius(thousandths);
};
