import { deviation, predictFrom } from '../cooling/mixture';
import { comesDownTo } from '../cooling/reach';
import type { Forecast } from '../cooling/types';
import { oilsLowest } from './first';
import type { SettingSoon, Terms, When } from './types';

/** Until then the oils are to hold where no meeting is in sight, s. */
const AWHILE = 1800;
const Z95 = 1.96;

/** Whether the oils, left alone, begin to set before the meeting has surely come; and what they would have to be warmed to. */
export const settingSoon = (oils: Forecast, terms: Terms, when: When): SettingSoon | null => {
  if (terms.setsAt === null || when.kind === 'met') return null;
  const until = when.kind === 'in' ? when.high : Number.POSITIVE_INFINITY;
  const { low, middle, high } = comesDownTo(oils.ahead, terms.setsAt);
  if (low === null || middle === null || middle > until) return null;
  return { in: { low, middle, high }, warmTo: warmTo(oils, terms, until === Number.POSITIVE_INFINITY ? AWHILE : until) };
};

/** The lowest whole degree inside the window from which the oils surely stay above their lowest for so long. */
const warmTo = ({ laws, doubt, ahead }: Forecast, terms: Terms, seconds: number): number | null => {
  const lowest = oilsLowest(terms);
  const now = ahead[0]?.middle ?? lowest;
  for (let from = Math.ceil(Math.max(lowest, now)); from <= terms.high; from += 1) {
    const then = predictFrom(laws, from, seconds);
    if (then.mean - Z95 * deviation(then, from - then.mean, seconds, doubt) >= lowest) return from;
  }
  return null;
};
