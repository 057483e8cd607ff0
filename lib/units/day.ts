/**
 * A day of the workshop's own calendar, "YYYY-MM-DD" (ISO 8601, proleptic Gregorian). Days have no hours and no zone: sums over them never
 * meet a clock change.
 */
export type Day = string;

const SHAPE = /^(\d{4})-(\d{2})-(\d{2})$/;
const MS = 86_400_000;

/** Days since 1970-01-01; `null` where the text is no day there is. */
export const dayNumber = (day: Day): number | null => {
  const match = SHAPE.exec(day);
  if (match === null) return null;
  const ms = Date.UTC(Number(match[1]), Number(match[2]) - 1, Number(match[3]));
  return dayAt(ms / MS) === day ? ms / MS : null;
};

/** The day so many days after 1970-01-01. */
export const dayAt = (number: number): Day => new Date(number * MS).toISOString().slice(0, 10);

export const isDay = (text: string): boolean => dayNumber(text) !== null;

/** So many days later, or earlier when negative. Throws `RangeError` for what is no day. */
export const addDays = (day: Day, days: number): Day => dayAt(numberOf(day) + days);

/** Days from one to the other; negative when the other is earlier. Throws `RangeError` for what is no day. */
export const daysBetween = (from: Day, to: Day): number => numberOf(to) - numberOf(from);

/** 1 Monday … 7 Sunday (ISO 8601). 1970-01-01 was a Thursday. */
export const weekdayOf = (day: Day): number => ((((numberOf(day) + 3) % 7) + 7) % 7) + 1;

/** The day a moment falls on where the clock stands `offsetMin` minutes ahead of UTC. */
export const dayOf = (wall: number, offsetMin: number): Day => dayAt(Math.floor((wall + offsetMin * 60_000) / MS));

const numberOf = (day: Day): number => {
  const number = dayNumber(day);
  if (number === null) throw new RangeError(`${day} is no day`);
  return number;
};
