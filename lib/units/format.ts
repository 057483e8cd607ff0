import type { Display } from './display';
import { NANOGRAMS_PER } from './mass';

/** A number as it is shown: digits apart from their mark, so that a screen can give every digit its own fixed place. */
export interface Figure {
  /** `-` or `+` or empty; a true minus sign. */
  readonly sign: '' | '−' | '+';
  readonly whole: string;
  /** The locale's decimal mark; empty when there is no fraction. */
  readonly mark: string;
  readonly fraction: string;
  readonly unit: string;
  /** Of pounds and ounces: the ounces, with `unit` then naming the pounds. */
  readonly rest: Figure | null;
}

export type Sign = 'minus' | 'both' | 'none';

const MINUS = '−';

interface Numbers {
  readonly format: (value: number) => string;
  /** The locale's decimal mark; empty when there is no fraction. */
  readonly mark: string;
}

/** Made once: making one takes longer than a reading may. */
const made = new Map<string, Numbers>();

/** Latin digits whatever the locale: the slots of the large number are drawn for them. */
const numbers = (locale: string, decimals: number, grouped: boolean): Numbers => {
  const key = `${locale} ${decimals} ${grouped}`;
  const before = made.get(key);
  if (before !== undefined) return before;
  const fresh = new Intl.NumberFormat(locale, {
    minimumFractionDigits: decimals,
    maximumFractionDigits: decimals,
    useGrouping: grouped,
    numberingSystem: 'latn',
  });
  const mark = fresh.formatToParts(1.5).find(({ type }) => type === 'decimal')?.value ?? '';
  const kept = { format: (value: number) => fresh.format(value), mark };
  made.set(key, kept);
  return kept;
};

const signOf = (negative: boolean, zero: boolean, how: Sign): Figure['sign'] => {
  if (how === 'none' || zero) return '';
  if (negative) return MINUS;
  return how === 'both' ? '+' : '';
};

/** One decimal figure; `value` in `unit`. The sign follows what is shown: a value that rounds to zero has none. */
export const figure = (value: number, decimals: number, unit: string, locale: string, sign: Sign = 'minus'): Figure => {
  const { format, mark } = numbers(locale, decimals, false);
  const text = format(Math.abs(value));
  const at = mark === '' ? text.length : text.indexOf(mark);
  const [whole, fraction] = [text.slice(0, at), text.slice(at + mark.length)];
  const zero = /^0*$/.test(whole + fraction);
  return { sign: signOf(value < 0, zero, sign), whole, mark, fraction, unit, rest: null };
};

export const figureText = ({ sign, whole, mark, fraction, unit, rest }: Figure): string =>
  `${sign}${whole}${mark}${fraction} ${unit}${rest === null ? '' : ` ${figureText(rest)}`}`;

/** The figure without its unit. */
export const figureNumber = ({ sign, whole, mark, fraction }: Figure): string => `${sign}${whole}${mark}${fraction}`;

/** Digits after the mark that a scale's division is worth in a unit. A division of 0.1 g gives 1 in grams and 2 in ounces. */
export const massDecimals = (division: number | null, unit: Display['mass']): number => {
  const step = division ?? 100;
  if (unit === 'g') return step < 10 ? 3 : step < 100 ? 2 : step < 1000 ? 1 : 0;
  // A last digit up to three divisions wide: a finer one would only show noise.
  const ounces = step / MG_PER_OZ;
  return Math.min(4, Math.max(1, Math.ceil(-Math.log10(3 * ounces))));
};

const MG_PER_OZ = Number(NANOGRAMS_PER.oz) / 1e6;
const OZ_PER_LB = 16;

/**
 * A mass as a person reads it. `division` (mg) is the step of the scale it comes from; `null` for a plan's figure, shown to
 * a tenth of a gram. Pounds carry their ounces in `rest`; under one pound there are ounces alone.
 */
export const massFigure = (milligrams: number, display: Display, division: number | null = null, sign: Sign = 'minus'): Figure => {
  const decimals = massDecimals(division, display.mass);
  if (display.mass === 'g') return figure(milligrams / 1000, decimals, 'g', display.locale, sign);
  const unit = 10 ** -decimals;
  // Rounded in ounces first, so that 15.999 oz never stands beside a pound it should have filled.
  const ounces = Math.round(Math.abs(milligrams) / MG_PER_OZ / unit) * unit;
  const signed = milligrams < 0 ? -ounces : ounces;
  if (display.mass === 'oz' || ounces < OZ_PER_LB - unit / 2) return figure(signed, decimals, 'oz', display.locale, sign);
  const pounds = Math.floor((ounces + unit / 2) / OZ_PER_LB);
  const rest = figure(Math.max(0, ounces - pounds * OZ_PER_LB), decimals, 'oz', display.locale, 'none');
  return { ...figure(pounds, 0, 'lb', display.locale, 'none'), sign: signOf(milligrams < 0, false, sign), rest };
};

export const massText = (milligrams: number, display: Display, division: number | null = null, sign: Sign = 'minus'): string =>
  figureText(massFigure(milligrams, display, division, sign));

/** A range with its edges rounded into it, never out of it: what is shown as its edge is inside. */
export const massRange = (from: number, to: number, display: Display, division: number | null = null): readonly [string, string] => {
  const unit = 10 ** -massDecimals(division, display.mass) * (display.mass === 'g' ? 1000 : MG_PER_OZ);
  // What stands on a step stays there.
  const [low, high] = [Math.ceil(from / unit - 1e-6), Math.floor(to / unit + 1e-6)];
  return [massText(low * unit, display, division), massText(high * unit, display, division)];
};

/** A temperature from thousandths of a degree Celsius, to a tenth of a degree. */
export const temperatureFigure = (milliCelsius: number, display: Display, decimals = 1): Figure =>
  display.temperature === 'C'
    ? figure(milliCelsius / 1000, decimals, '°C', display.locale)
    : figure((milliCelsius * 9) / 5000 + 32, decimals, '°F', display.locale);

/** A difference of temperatures: converted by factor only. */
export const differenceFigure = (milliKelvin: number, display: Display, decimals = 1): Figure =>
  display.temperature === 'C'
    ? figure(milliKelvin / 1000, decimals, '°C', display.locale)
    : figure((milliKelvin * 9) / 5000, decimals, '°F', display.locale);

export const temperatureText = (milliCelsius: number, display: Display, decimals = 1): string =>
  figureText(temperatureFigure(milliCelsius, display, decimals));
export const differenceText = (milliKelvin: number, display: Display, decimals = 1): string =>
  figureText(differenceFigure(milliKelvin, display, decimals));

/** A share from millionths, in per cent to a tenth. */
export const shareText = (millionths: number, display: Display, decimals = 1): string =>
  figureText(figure(millionths / 10_000, decimals, '%', display.locale));

/** A plain number in the locale's marks, grouped from four digits on. */
export const numberText = (value: number, locale: string, decimals = 0): string =>
  numbers(locale, decimals, true).format(value).replace('-', MINUS);

/** The locale's decimal mark, for a keypad. */
export const decimalMark = (locale: string): string => figure(1.5, 1, '', locale).mark;
