import { within } from '../check';
import type { Source } from '../source';

/** Nominal quantities of the table, grams: from above `over` up to `to`. */
interface Band {
  readonly to: number;
  /** Per cent of the nominal quantity, or grams. */
  readonly percent?: number;
  readonly grams?: number;
}

const BANDS: readonly Band[] = [
  { to: 50, percent: 9 },
  { to: 100, grams: 4.5 },
  { to: 200, percent: 4.5 },
  { to: 300, grams: 9 },
  { to: 500, percent: 3 },
  { to: 1000, grams: 15 },
  { to: 10_000, percent: 1.5 },
];

/** The last row, and that per cents are rounded up, were read in the second. */
const SOURCE: Source = {
  text: 'Council Directive 76/211/EEC Annex I, 2.4; GOV.UK, Weights and measures: the law, packaged goods',
  grade: 'A',
};

/** Where the average system begins and where the Directive's table ends, grams. */
export const LEAST_NOMINAL = 5;
export const MOST_NOMINAL = 10_000;

export interface Tolerable {
  /** Tolerable negative error, grams. */
  readonly grams: number;
  /** As it stands in the table. */
  readonly by: { readonly percent: number } | { readonly grams: number };
  readonly source: Source;
}

/** A hair below a whole tenth is that tenth: 4.5 % of 120 is 5.4, in binary a little more. */
const HAIR = 1e-9;

/**
 * Tolerable negative error of a nominal quantity in grams. What the table gives in per cent is rounded up to the next tenth of a gram.
 * @throws RangeError outside 5 g to 10 kg
 */
export const tolerableError = (nominal: number): Tolerable => {
  within(nominal, LEAST_NOMINAL, MOST_NOMINAL, 'a tolerable negative error, by nominal grams,');
  const band = BANDS.find(({ to }) => nominal <= to) as Band;
  if (band.grams !== undefined) return { grams: band.grams, by: { grams: band.grams }, source: SOURCE };
  const percent = band.percent as number;
  return { grams: Math.ceil((nominal * percent) / 10 - HAIR) / 10, by: { percent }, source: SOURCE };
};
