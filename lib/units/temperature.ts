import type { Brand } from './brand';

/** Temperature as a whole number of thousandths of a degree Celsius. */
export type MilliCelsius = Brand<number, 'm°C'>;

/** A difference of two temperatures, in thousandths of a kelvin. Converts to °F by factor only, never by offset. */
export type MilliKelvin = Brand<number, 'mK'>;

export const milliCelsius = (value: number): MilliCelsius => {
  if (!Number.isSafeInteger(value)) throw new RangeError(`not a whole number of thousandths of a degree: ${value}`);
  return value as MilliCelsius;
};
export const milliKelvin = (value: number): MilliKelvin => milliCelsius(value) as number as MilliKelvin;

/** Degrees Celsius to thousandths, rounded to nearest. */
export const celsius = (degrees: number): MilliCelsius => milliCelsius(Math.round(degrees * 1000));

/**
 * A decimal text in °C or °F as thousandths of a degree Celsius, exact, rounded half away from zero. The text has passed a
 * grammar of its own: `-?digits[.up to three digits]`. 0 °C is 32 °F, a kelvin is 1.8 °F (NIST SP 811, App. B).
 */
export const milliCelsiusOf = (text: string, unit: 'C' | 'F'): MilliCelsius => {
  // Thousandths as written: at most 10^6, so the product is nearest to a whole number and rounding makes it exact.
  const thousandths = Math.round(Number(text) * 1000);
  if (unit === 'C') return milliCelsius(thousandths + 0);
  const ninths = (thousandths - 32_000) * 5;
  return milliCelsius(Math.sign(ninths) * Math.floor((Math.abs(ninths) * 2 + 9) / 18) + 0);
};

export const apart = (a: MilliCelsius, b: MilliCelsius): MilliKelvin => milliKelvin(Math.abs(a - b));
