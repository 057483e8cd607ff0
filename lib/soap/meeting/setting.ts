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
  const sets = terms.setsAt ?? mayBegin(oils, terms);
  if (sets === null || when.kind === 'met') return null;
  const until = when.kind === 'in' ? when.high : Number.POSITIVE_INFINITY;
  const { low, middle, high } = comesDownTo(oils.ahead, sets);
  if (low === null || middle === null || middle > until) return null;
  const lowest = terms.setsAt === null ? Math.max(oilsLowest(terms), sets) : oilsLowest(terms);
  const seconds = until === Number.POSITIVE_INFINITY ? AWHILE : until;
  return { by: terms.setsAt === null ? 'melting' : 'maker', in: { low, middle, high }, warmTo: warmTo(oils, terms, lowest, seconds) };
};

/** By its melting range: said of a pot that is warmer still, where the window reaches so high; below it nobody knows by how much. */
const mayBegin = ({ ahead }: Forecast, { maySetBelow = null, high }: Terms): number | null =>
  maySetBelow !== null && maySetBelow < high && (ahead[0]?.middle ?? 0) > maySetBelow ? maySetBelow : null;

/** The lowest whole degree inside the window from which the oils surely stay above `lowest` for so long. */
const warmTo = ({ laws, doubt, ahead }: Forecast, terms: Terms, lowest: number, seconds: number): number | null => {
  const now = ahead[0]?.middle ?? lowest;
  for (let from = Math.ceil(Math.max(lowest, now)); from <= terms.high; from += 1) {
    const then = predictFrom(laws, from, seconds);
    if (then.mean - Z95 * deviation(then, from - then.mean, seconds, doubt) >= lowest) return from;
  }
  return null;
};
