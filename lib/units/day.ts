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

/** A day as somebody typed it. `ambiguous`: day and month can stand in either order, and each makes a day. */
export type TypedDay =
  | { readonly kind: 'day'; readonly day: Day }
  | { readonly kind: 'ambiguous'; readonly readings: readonly [Day, Day] }
  | { readonly kind: 'none' };

const YEAR_FIRST = /^(\d{4})[-/. ]+(\d{1,2})[-/. ]+(\d{1,2})\.?$/;
const YEAR_LAST = /^(\d{1,2})[-/. ]+(\d{1,2})[-/. ]+(\d{4})$/;

const dayFrom = (year = '', month = '', day = ''): Day | null => {
  const text = `${year}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`;
  return isDay(text) ? text : null;
};

/**
 * Year, month, day wherever the year stands first; with the year last the one order that makes a day. Where both do nobody can say which was
 * meant: 3/11 is November to one reader and March to the next. Years have four digits.
 */
export const readDay = (text: string): TypedDay => {
  const first = YEAR_FIRST.exec(text.trim());
  const last = YEAR_LAST.exec(text.trim());
  const [, a, b, year] = last ?? [];
  const readings = first === null ? [dayFrom(year, b, a), dayFrom(year, a, b)] : [dayFrom(first[1], first[2], first[3])];
  const [one, other] = new Set(readings.filter((day) => day !== null));
  if (one === undefined) return { kind: 'none' };
  return other === undefined ? { kind: 'day', day: one } : { kind: 'ambiguous', readings: [one, other] };
};

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
