import type { Band } from '#lib/work/formula/index';

export type End = 'low' | 'high';

/** A band with another end; with nothing in either it is not said at all. */
export const bandWith = (band: Band | null, end: End, text: string): Band | null => {
  const next = { low: band?.low ?? '', high: band?.high ?? '', [end]: text };
  return next.low === '' && next.high === '' ? null : next;
};
