/** Wall times as labels. A record's time is shown as its bench's clock had it; a list's in this screen's own zone. */
export interface Zone {
  /** Minutes east of UTC; `null`: this screen's. */
  readonly offsetMin: number | null;
  readonly locale: string;
}

/** Names of days and months are in the language of all other words, whatever mark a person's numbers have. */
const english = (locale: string): string => (/^en\b/.test(locale) ? locale : 'en-GB');

const format = (wall: number, { offsetMin, locale }: Zone, options: Intl.DateTimeFormatOptions): string =>
  offsetMin === null
    ? new Intl.DateTimeFormat(english(locale), options).format(wall)
    : new Intl.DateTimeFormat(english(locale), { ...options, timeZone: 'UTC' }).format(wall + offsetMin * 60_000);

export const clockText = (wall: number, zone: Zone, seconds = false): string =>
  format(wall, zone, { hour: '2-digit', minute: '2-digit', hourCycle: 'h23', ...(seconds ? { second: '2-digit' } : {}) });
/** "Tuesday 14 April". */
export const dayText = (wall: number, zone: Zone): string =>
  format(wall, zone, { weekday: 'long', day: 'numeric', month: 'long' }).replace(',', '');
/** "14 April 2026". */
export const dateText = (wall: number, zone: Zone): string => format(wall, zone, { day: 'numeric', month: 'long', year: 'numeric' });
/** "14 Apr". */
export const shortDate = (wall: number, zone: Zone): string => format(wall, zone, { day: 'numeric', month: 'short' });
/** "Apr". */
export const monthText = (wall: number, zone: Zone): string => format(wall, zone, { month: 'short' });
/** "14 Apr 2026". */
export const shortDated = (wall: number, zone: Zone): string => format(wall, zone, { day: 'numeric', month: 'short', year: 'numeric' });
/** "Tue 14 Apr, 16:42". */
export const shortMoment = (wall: number, zone: Zone): string =>
  `${format(wall, zone, { weekday: 'short', day: 'numeric', month: 'short' }).replace(',', '')}, ${clockText(wall, zone)}`;
