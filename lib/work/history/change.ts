import { meanOf } from '#lib/units/sum';
import { controlChart } from './chart';

/** What moved: the mean of the newest values against that of those before them. */
export interface Change {
  readonly newest: number;
  readonly before: number;
  /** How many are the newest. */
  readonly of: number;
}

const NEWEST = 12;
/** So many before them at least. */
const BEFORE = 12;
/** Standard errors of the difference: of lines that never moved one in some 370 is said to have. */
const REACH = 3;

/**
 * Whether the newest dozen values lie elsewhere than those before: their means differ by three standard errors, by the scatter from one value
 * to the next. Beside many charts the run rules speak too often by chance for one sentence about all of them; this does not.
 */
export const changeOf = (values: readonly number[]): Change | null => {
  const chart = controlChart(values);
  if (chart === null || values.length < NEWEST + BEFORE) return null;
  const [before, newest] = [meanOf(values.slice(0, -NEWEST)), meanOf(values.slice(-NEWEST))];
  const error = chart.sigma * Math.sqrt(1 / NEWEST + 1 / (values.length - NEWEST));
  return Math.abs(newest - before) > REACH * error ? { newest, before, of: NEWEST } : null;
};
