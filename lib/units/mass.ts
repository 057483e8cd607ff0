import type { Brand } from './brand';

/** Mass as a whole number of milligrams. Entries, plans and decisions hold nothing finer and nothing fractional. */
export type Milligrams = Brand<number, 'mg'>;

/** Units a scale may state and a person may read. Any other unit on the wire is a fault, never a weight. */
export type MassUnit = 'mg' | 'g' | 'kg' | 'oz' | 'lb';

/** Nanograms in one unit. Exact: international avoirdupois pound = 453.59237 g (NIST SP 811, App. B). */
export const NANOGRAMS_PER: Readonly<Record<MassUnit, bigint>> = {
  mg: 1_000_000n,
  g: 1_000_000_000n,
  kg: 1_000_000_000_000n,
  oz: 28_349_523_125n,
  lb: 453_592_370_000n,
};

export const mg = (value: number): Milligrams => {
  if (!Number.isSafeInteger(value)) throw new RangeError(`not a whole number of milligrams: ${value}`);
  return value as Milligrams;
};

/** Grams to whole milligrams, rounded to nearest (half away from zero). For typed plans and tests; a scale's text goes through `massOfText`. */
export const grams = (value: number): Milligrams => mg(Math.sign(value) * Math.round(Math.abs(value) * 1000));

export const addMass = (a: Milligrams, b: Milligrams): Milligrams => mg(a + b);
export const subMass = (a: Milligrams, b: Milligrams): Milligrams => mg(a - b);

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
  if (whole.length + fraction.length === 0 || whole.length + fraction.length > 15) return null;
  const scale = 10n ** BigInt(fraction.length);
  const nanograms = roundedQuotient(BigInt(whole + fraction || '0') * NANOGRAMS_PER[unit], scale);
  const milligrams = roundedQuotient(nanograms, 1_000_000n);
  if (milligrams > 9_000_000_000n) return null;
  const step = roundedQuotient(NANOGRAMS_PER[unit], scale * 1_000_000n);
  const value = Number(milligrams);
  return { mass: mg(sign === '-' && value !== 0 ? -value : value), step: mg(Math.max(1, Number(step))) };
};

const roundedQuotient = (dividend: bigint, divisor: bigint): bigint => (dividend * 2n + divisor) / (divisor * 2n);
