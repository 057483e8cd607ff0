import { celsiusOfNtc, celsiusOfNtcBeta } from '#lib/measure/probe/ntc';
import { celsiusOfOneWire } from '#lib/measure/probe/one-wire';
import { celsiusOfPt100 } from '#lib/measure/probe/pt100';
import { celsiusOfTypeK } from '#lib/measure/probe/type-k';
import { milliCelsiusOf } from '#lib/units/temperature';
import type { MilliCelsius } from '#lib/units/temperature';

/**
 * What a board measured, before it is a temperature: the middle of a probe line of version 2 (hardware/PROBE-LINE.md).
 * `value` null: the law knows no such temperature. `null` for what is none of these at all.
 */
export const rawTemperature = (text: string): { readonly value: MilliCelsius | null } | null => {
  const [sensor = '', ...words] = text.split(' ');
  const law = Object.hasOwn(LAWS, sensor) ? LAWS[sensor] : undefined;
  if (law === undefined || words.length !== law.words) return null;
  const numbers = words.map(law.hex ? hexWord : decimal);
  if (numbers.some(Number.isNaN)) return null;
  const celsius = law.celsius(...numbers);
  // Adding 0 makes a negative zero a zero.
  return { value: celsius === null ? null : milliCelsiusOf(Math.round(celsius * 1000) + 0, 'C') };
};

interface Law {
  readonly words: number;
  readonly hex?: true;
  celsius(...numbers: readonly number[]): number | null;
}

const LAWS: Readonly<Record<string, Law>> = {
  onewire: { words: 1, hex: true, celsius: (word = Number.NaN) => celsiusOfOneWire(word) },
  pt100: { words: 1, celsius: (ohms = Number.NaN) => celsiusOfPt100(ohms) },
  'type-k': { words: 2, celsius: (millivolts = Number.NaN, junction = Number.NaN) => celsiusOfTypeK(millivolts, junction) },
  // Constants as data sheets print them: thousandths, ten-thousandths and ten-millionths of 1/K.
  ntc: {
    words: 4,
    celsius: (ohms = Number.NaN, a = Number.NaN, b = Number.NaN, c = Number.NaN) =>
      celsiusOfNtc(ohms, { a: a / 1e3, b: b / 1e4, c: c / 1e7 }),
  },
  'ntc-beta': { words: 3, celsius: (ohms = Number.NaN, r25 = Number.NaN, beta = Number.NaN) => celsiusOfNtcBeta(ohms, r25, beta) },
};

const hexWord = (text: string): number => (/^[0-9A-F]{4}$/.test(text) ? Number.parseInt(text, 16) : Number.NaN);
const decimal = (text: string): number => (/^-?\d{1,7}(\.\d{1,7})?$/.test(text) ? Number(text) : Number.NaN);
