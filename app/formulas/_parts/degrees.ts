import type { TemperatureDisplay } from '#lib/units/display';
import { decimal, numberOf } from '#lib/work/formula/index';

/** A temperature on a scale, or how far two are apart. */
export type Degrees = 'point' | 'difference';

const PER_KELVIN = 9 / 5;
const FREEZING = 32;
/** Finer than any thermometer, coarser than what is lost on the way there and back. */
const DIGITS = 6;

const converted = (text: string, unit: TemperatureDisplay, by: (value: number) => number): string => {
  const value = numberOf(text);
  return unit === 'C' || value === null ? text : decimal(Number(by(value).toFixed(DIGITS)));
};

/** What a document keeps of a temperature typed in the person's unit, °C or K; what is no number is kept as typed. */
export const celsiusOf = (text: string, unit: TemperatureDisplay, what: Degrees): string =>
  converted(text, unit, (value) => (what === 'point' ? value - FREEZING : value) / PER_KELVIN);

const SHOWN = 4;

/** The same in the person's unit, as it stands in a field. */
export const degreesOf = (kept: string, unit: TemperatureDisplay, what: Degrees): string =>
  converted(kept, unit, (value) => Number((value * PER_KELVIN + (what === 'point' ? FREEZING : 0)).toFixed(SHOWN)));
