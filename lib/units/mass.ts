import type { Brand } from './brand';

/** Mass as a whole number of milligrams. Entries, plans and decisions hold nothing finer and nothing fractional. */
export type Milligrams = Brand<number, 'mg'>;

/** Units a scale may state and a person may read. Any other unit on the wire is a fault, never a weight. */
export const MASS_UNITS = ['mg', 'g', 'kg', 'oz', 'lb'] as const;
export type MassUnit = (typeof MASS_UNITS)[number];

/** The most a weight typed, stored or asked for may be, mg: no bench scale bears it. */
export const MOST_WEIGHED = 50_000_000;

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

export const subMass = (a: Milligrams, b: Milligrams): Milligrams => mg(a - b);
