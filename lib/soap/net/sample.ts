import { above } from '../check';
import { meanOf, sumOf } from '#lib/units/sum';

/** What a lot is checked by: net weights in grams, in the order in which they were drawn, and how many bars the lot has. */
export interface NetSample {
  readonly nominal: number;
  readonly weights: readonly number[];
  readonly lot: number;
}

/** @throws RangeError in words */
export const checkedSample = ({ nominal, weights, lot }: NetSample): NetSample => {
  above(nominal, 'a label weight');
  if (!(Number.isInteger(lot) && lot > 0)) throw new RangeError('a lot has a whole number of bars');
  for (const weight of weights) above(weight, 'a net weight');
  if (weights.length > lot) throw new RangeError('more bars were weighed than the lot has');
  return { nominal, weights, lot };
};

/** Estimated standard deviation, over n − 1; 0 for one value. */
export const deviationOf = (values: readonly number[]): number => {
  if (values.length < 2) return 0;
  const mean = meanOf(values);
  return Math.sqrt(sumOf(values, (one) => (one - mean) ** 2) / (values.length - 1));
};

/** Weights meet a limit that they show: a hair of binary digits below it is it. */
const HAIR = 1e-9;
export const isBelow = (value: number, limit: number): boolean => value < limit - HAIR;
