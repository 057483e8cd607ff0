import { mg, NANOGRAMS_PER } from './mass';
import type { MassUnit, Milligrams } from './mass';

const MOST_DIGITS = 15;
const HEAVIEST = 9_000_000_000;

/** Milligrams in one unit as a fraction; says the same as `NANOGRAMS_PER`. A pound is 45 359 237 / 100 mg, an ounce a sixteenth of it. */
const FRACTION: Readonly<Record<MassUnit, readonly [numerator: number, denominator: number]>> = {
  mg: [1, 1],
  g: [1000, 1],
  kg: [1_000_000, 1],
  oz: [45_359_237, 1600],
  lb: [45_359_237, 100],
};

/** How to turn the digits of a display with so many decimals into milligrams: times `numerator`, divided by `divisor`, in lowest terms. */
interface Conversion {
  readonly numerator: number;
  readonly divisor: number;
  /** Largest number of digits for which doubles stay exact. */
  readonly exactUpTo: number;
}

const conversion = (unit: MassUnit, decimals: number): Conversion => {
  const [numerator, denominator] = FRACTION[unit];
  const divisor = denominator * 10 ** decimals;
  const common = greatestCommon(numerator, divisor);
  // Below 2^52 dividend, quotient and remainder are exact; a divisor beyond it leaves nothing to doubles.
  const exactUpTo = divisor / common < 2 ** 52 ? Math.floor(2 ** 52 / (numerator / common)) : -1;
  return { numerator: numerator / common, divisor: divisor / common, exactUpTo };
};

const greatestCommon = (a: number, b: number): number => (b === 0 ? a : greatestCommon(b, a % b));

const byDecimals = (unit: MassUnit): readonly Conversion[] =>
  Array.from({ length: MOST_DIGITS + 1 }, (_, decimals) => conversion(unit, decimals));

const CONVERSIONS: Readonly<Record<MassUnit, readonly Conversion[]>> = {
  mg: byDecimals('mg'),
  g: byDecimals('g'),
  kg: byDecimals('kg'),
  oz: byDecimals('oz'),
  lb: byDecimals('lb'),
};

/**
 * The mass of `digits / 10^decimals` units, `digits` a whole number of at most 15 digits. Exact, rounded half away from zero once, at
 * the milligram. `null` when it is more than 9 t.
 */
export const massOfDigits = (digits: number, decimals: number, unit: MassUnit): Milligrams | null => {
  const milligrams = milligramsOf(digits, decimals, unit);
  return milligrams > HEAVIEST ? null : mg(milligrams);
};

/** The step of a display with so many decimals that counts by so many of its last digit; at least a milligram. */
export const stepOfDecimals = (decimals: number, unit: MassUnit, countBy = 1): Milligrams =>
  mg(Math.max(1, milligramsOf(countBy, decimals, unit)));

const milligramsOf = (digits: number, decimals: number, unit: MassUnit): number => {
  const { numerator, divisor, exactUpTo } = CONVERSIONS[unit][decimals] as Conversion;
  if (digits > exactUpTo) return inWholeNumbers(digits, decimals, unit);
  const dividend = digits * numerator;
  if (divisor === 1) return dividend;
  const rest = dividend % divisor;
  return (dividend - rest) / divisor + (rest * 2 >= divisor ? 1 : 0);
};

const inWholeNumbers = (digits: number, decimals: number, unit: MassUnit): number => {
  const scale = 10n ** BigInt(decimals) * 1_000_000n;
  return Number((BigInt(digits) * NANOGRAMS_PER[unit] * 2n + scale) / (scale * 2n));
};

const DECIMAL = /^([+-]?)(\d*)(?:\.(\d*))?$/;

/**
 * The mass a decimal text in a unit states, in whole milligrams, with the step of its last digit.
 * Exact integer arithmetic, rounded half away from zero once, at the milligram. `null` when the text is not a plain decimal
 * or states more than 9 t: neither is a weight on a bench.
 */
export const massOfText = (text: string, unit: MassUnit): { mass: Milligrams; step: Milligrams } | null => {
  const parts = DECIMAL.exec(text);
  if (parts === null) return null;
  const [, sign = '', whole = '', fraction = ''] = parts;
  const digits = whole + fraction;
  if (digits.length === 0 || digits.length > MOST_DIGITS) return null;
  const mass = massOfDigits(Number(digits), fraction.length, unit);
  return mass === null ? null : { mass: sign === '-' ? mg(0 - mass) : mass, step: stepOfDecimals(fraction.length, unit) };
};
