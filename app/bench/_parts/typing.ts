import { figureNumber, massText, temperatureText } from '#lib/units/format';
import { figure } from '#lib/units/format';
import type { Display, MassDisplay } from '#lib/units/display';
import { massOfDecimal, readNumber, temperatureOfDecimal } from '#lib/units/parse';
import { mg } from '#lib/units/mass';

/** What a person types, before anything is believed. `portion`: of the batter; `part`: of what is in a vessel chosen
 * before. */
export type TypedWhat = 'weight' | 'portion' | 'part' | 'lye' | 'oils' | 'room' | 'batter';
export interface Typing {
  readonly what: TypedWhat;
  /** The number; of pounds and ounces the ounces. */
  readonly text: string;
  readonly pounds: string;
  /** Which of the two the next digit goes to. */
  readonly field: 'text' | 'pounds';
  /** An ambiguous number as the person said they meant it. */
  readonly meant: string | null;
}

export const isMass = (what: TypedWhat): boolean => what !== 'lye' && what !== 'oils' && what !== 'room' && what !== 'batter';

export const nothingTyped = (what: Typing['what'], mass: MassDisplay): Typing => ({
  what,
  text: '',
  pounds: '',
  field: isMass(what) && mass === 'lb' ? 'pounds' : 'text',
  meant: null,
});

export type Reading =
  | { readonly kind: 'unfinished' }
  | { readonly kind: 'invalid' }
  /** Two readings, each in words with its unit; none is taken before the person says which. */
  | { readonly kind: 'ambiguous'; readonly readings: readonly { readonly decimal: string; readonly shown: string }[] }
  | { readonly kind: 'weight'; readonly net: number; readonly text: string; readonly unit: 'g' | 'oz'; readonly shown: string }
  | { readonly kind: 'temperature'; readonly value: number; readonly shown: string };

const LONGEST = 9;

/** One key of the pad: a digit, the locale's mark, or a correction. */
export const typeKey = (typing: Typing, key: string): Typing => {
  const { field } = typing;
  const now = typing[field];
  if (key === 'delete') return { ...typing, [field]: now.slice(0, -1), meant: null };
  if (now.length >= LONGEST || (field === 'pounds' && !/\d/.test(key))) return typing;
  return { ...typing, [field]: now + key, meant: null };
};

const shownUnit = ({ what }: Typing, display: Display): string =>
  isMass(what) ? (display.mass === 'g' ? 'g' : 'oz') : `°${display.temperature}`;

/** Reads what was typed. Shown back in the person's own marks, so that a misread point or comma is seen. */
export const readTyping = (typing: Typing, display: Display): Reading => {
  const read = typing.text === '' && typing.pounds !== '' ? ({ kind: 'number', decimal: '0' } as const) : readNumber(typing.text);
  if (read.kind === 'unfinished' || read.kind === 'invalid') return { kind: read.kind };
  if (read.kind === 'ambiguous' && typing.meant === null) {
    const unit = shownUnit(typing, display);
    return {
      kind: 'ambiguous',
      readings: read.readings.map((decimal) => ({ decimal, shown: `${plainly(decimal, display.locale)} ${unit}` })),
    };
  }
  const decimal = read.kind === 'ambiguous' ? (typing.meant ?? '') : read.decimal;
  return isMass(typing.what) ? weightOf(typing, decimal, display) : temperatureOf(decimal, display);
};

/** A decimal text with its digits as typed and no mark where there is no fraction: 1.250 stays three digits, 1250 has none. */
const plainly = (decimal: string, locale: string): string =>
  figureNumber(figure(Number(decimal), decimal.split('.')[1]?.length ?? 0, '', locale));

const weightOf = (typing: Typing, decimal: string, display: Display): Reading => {
  const unit = display.mass === 'g' ? 'g' : 'oz';
  const small = Number(decimal) === 0 ? mg(0) : massOfDecimal(decimal, unit);
  const alone = Number(typing.pounds) === 0;
  const pounds = alone ? mg(0) : massOfDecimal(typing.pounds, 'lb');
  if (small === null || pounds === null) return { kind: 'invalid' };
  const net = small + pounds;
  if (net <= 0) return { kind: 'invalid' };
  const text = alone ? decimal : `${typing.pounds} lb ${decimal} oz`;
  const shown = alone ? `${plainly(decimal, display.locale)} ${unit}` : massText(net, display, 10);
  return { kind: 'weight', net, text, unit, shown };
};

const temperatureOf = (decimal: string, display: Display): Reading => {
  const value = temperatureOfDecimal(decimal, display.temperature);
  return value === null ? { kind: 'invalid' } : { kind: 'temperature', value, shown: temperatureText(value, display) };
};
