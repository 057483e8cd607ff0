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
 * Whole thousandths of a degree Celsius or Fahrenheit as thousandths of a degree Celsius, rounded half away from zero.
 * 0 °C is 32 °F, a kelvin is 1.8 °F (NIST SP 811, App. B).
 */
export const milliCelsiusOf = (thousandths: number, unit: 'C' | 'F'): MilliCelsius => {
  if (unit === 'C') return milliCelsius(thousandths);
  const ninths = (thousandths - 32_000) * 5;
  const size = Math.floor((Math.abs(ninths) * 2 + 9) / 18);
  return milliCelsius(ninths < 0 ? 0 - size : size);
};

export const apart = (a: MilliCelsius, b: MilliCelsius): MilliKelvin => milliKelvin(Math.abs(a - b));
