import { LAST_DAY } from './types';
import { weeklyLoss } from './paths';
import type { ReadyRule } from './types';

/** @throws RangeError for a rule that asks for nothing, or for what cannot be */
export const checkRule = ({ days, perWeek }: ReadyRule): void => {
  if (days === null && perWeek === null) throw new RangeError('a rule asks for days, for a loss per week, or for both');
  if (days !== null && !(Number.isInteger(days) && days >= 0)) throw new RangeError('the days of a rule are a whole number');
  if (perWeek !== null && !(perWeek > 0 && perWeek < 1)) throw new RangeError('the loss per week of a rule is a fraction above 0');
};

/** The first day on which a way of losing weight meets the rule; past the last one that is forecast, infinity. */
export const readyDay = (path: ArrayLike<number>, { days, perWeek }: ReadyRule): number => {
  const from = days ?? 0;
  if (perWeek === null) return from <= LAST_DAY ? from : Number.POSITIVE_INFINITY;
  for (let day = from; day <= LAST_DAY; day += 1) {
    const lost = weeklyLoss(path, day);
    if (lost !== null && lost < perWeek) return day;
  }
  return Number.POSITIVE_INFINITY;
};
