import type { Day } from '#lib/units/day';
import { dayNumber } from '#lib/units/day';
import { dateText, dayText, shortDate, shortDated } from './times';

const DAY_MS = 86_400_000;

/** A day of the calendar in this person's words; what is none as it stands. */
export const dayIn = (day: Day, locale: string, year = false): string => {
  const number = dayNumber(day);
  if (number === null) return day;
  return (year ? dateText : dayText)(number * DAY_MS, { offsetMin: 0, locale });
};

/** The same where there is little room: "13 Jan". */
export const shortDayIn = (day: Day, locale: string): string => {
  const number = dayNumber(day);
  return number === null ? day : shortDate(number * DAY_MS, { offsetMin: 0, locale });
};

/** The same of any year: "13 Jan 2027". */
export const shortDatedIn = (day: Day, locale: string): string => {
  const number = dayNumber(day);
  return number === null ? day : shortDated(number * DAY_MS, { offsetMin: 0, locale });
};
