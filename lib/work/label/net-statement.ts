import { within } from '#lib/soap/check';
import type { Source, Sourced } from '#lib/soap/source';
import { NANOGRAMS_PER, type Milligrams } from '#lib/units/mass';

/** Net content as a label states it, never more than there is. */
export interface NetStatement {
  /** "125 g". */
  readonly metric: string;
  /** "4.4 oz", from a pound on "17.6 oz (1 lb 1.6 oz)". */
  readonly customary: string;
}

const HUNDREDTHS = 100;

const mgPerOunce = Number(NANOGRAMS_PER.oz) / 1e6;

/** Down to hundredths, as 21 CFR 701.13 allows no more decimals; trailing zeros go. */
const down = (value: number): string => String(Math.floor(value * HUNDREDTHS + 1e-9) / HUNDREDTHS);

/** Grams. */
const [LEAST, MOST] = [1, 25_000];

/** Whether a label can state it. */
export const isStatable = (net: Milligrams): boolean => net / 1000 >= LEAST && net / 1000 <= MOST;

/** @throws RangeError below 1 g or above 25 kg */
export const netStatement = (net: Milligrams): NetStatement => {
  const grams = within(net / 1000, LEAST, MOST, 'a net content, in grams,');
  const ounces = net / mgPerOunce;
  const pounds = Math.floor(ounces / 16);
  const rest = ounces - 16 * pounds;
  const plain = `${down(ounces)} oz`;
  return {
    metric: grams < 1000 ? `${down(grams)} g` : `${Math.floor(grams) / 1000} kg`,
    customary:
      pounds === 0 || pounds >= 4 ? (pounds >= 4 ? `${pounds} lb ${down(rest)} oz` : plain) : `${plain} (${pounds} lb ${down(rest)} oz)`,
  };
};

const METRIC: Source = { text: 'Council Directive 76/211/EEC Annex I, 3.1, as told by the USDA mission to the EU', grade: 'C' };
const HEIGHTS: readonly (readonly [to: number, millimetres: number])[] = [
  [50, 2],
  [200, 3],
  [1000, 4],
];

/** Least height of the figures of a metric net content, mm. */
export const metricHeight = (net: Milligrams): Sourced => ({
  value: HEIGHTS.find(([to]) => net / 1000 <= to)?.[1] ?? 6,
  source: METRIC,
});

/** Least height of the ℮ beside it, mm. */
export const ESTIMATED_SIGN: Sourced = { value: 3, source: METRIC };

const MM_PER_INCH = 25.4;
const CUSTOMARY: Source = { text: '21 CFR 701.13(i), by the area of the principal display panel', grade: 'memory' };
const BY_AREA: readonly (readonly [squareInches: number, inches: number])[] = [
  [5, 1 / 16],
  [25, 1 / 8],
  [100, 3 / 16],
  [400, 1 / 4],
];

/** Least height of the letters of a customary net content, mm, for a front of so many mm². */
export const customaryHeight = (front: number): Sourced => {
  const inches = within(front, 1, 1e7, 'the front of a label, in mm²,') / MM_PER_INCH ** 2;
  return { value: (BY_AREA.find(([area]) => inches <= area + 1e-9)?.[1] ?? 1 / 2) * MM_PER_INCH, source: CUSTOMARY };
};

/** Least height of the letters of a list of ingredients in the United States, mm. */
export const INGREDIENT_HEIGHT: Sourced = { value: MM_PER_INCH / 16, source: { text: '21 CFR 701.3(b)', grade: 'A' } };
