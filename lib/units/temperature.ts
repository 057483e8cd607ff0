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

export const apart = (a: MilliCelsius, b: MilliCelsius): MilliKelvin => milliKelvin(Math.abs(a - b));
