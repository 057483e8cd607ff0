import { numberOf } from '#lib/work/formula/index';
import type { Band } from '#lib/work/formula/index';

export type End = 'low' | 'high';

/** A band with another end; with nothing in either it is not said at all. */
export const bandWith = (band: Band | null, end: End, text: string): Band | null => {
  const next = { low: band?.low ?? '', high: band?.high ?? '', [end]: text };
  return next.low === '' && next.high === '' ? null : next;
};

/** Whether a text is a share a paper can state, %. */
export const isPercent = (text: string): boolean => {
  const value = numberOf(text);
  return value !== null && value >= 0 && value <= 100;
};
