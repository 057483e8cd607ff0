import type { CureForecast } from '#lib/soap/shrink/index';
import { daysBetween } from './cure';
import type { UnmouldKept } from './documents';
import type { BarsSummary } from './summary';
import type { UnmouldWindow } from './unmould';

/** What somebody has to do about a lot now. `ready`: it has become so in the last days, and may be sold. */
export type Due = 'unmould' | 'cut' | 'weigh' | 'photo' | 'ready';

const HOUR_MS = 3_600_000;
/** So long a lot counts as newly ready. */
const NEWS_DAYS = 3;

/** Hours since pouring, whole. */
export const hoursSince = (poured: number, now: number): number => Math.max(0, Math.floor((now - poured) / HOUR_MS));

/** Wall time before which a log has to be cut, as set for its formula; `null`: nobody said, or it is cut. */
export const cutBefore = (
  { poured, cut }: Pick<BarsSummary, 'poured' | 'cut'>,
  said: Pick<UnmouldKept, 'latestCut'> | null,
): number | null => (cut !== null || said === null || said.latestCut === null ? null : poured + said.latestCut * HOUR_MS);

export const isOut = ({ unmould }: Pick<BarsSummary, 'unmould'>): boolean => unmould?.state === 'out' || unmould?.state === 'torn';

/** A photograph missed so long is not asked for any more. */
const PHOTO_DAYS = 7;

/** The day of the schedule that a photograph is due for now; `null`: none is. Days from cutting; `taken`: on which there is one. */
export const photoDue = (days: readonly number[], taken: readonly number[], today: number): number | null => {
  const last = Math.max(-1, ...days.filter((day) => day <= today));
  return last < 0 || today - last > PHOTO_DAYS || taken.some((day) => day >= last) ? null : last;
};

/** The next day of the schedule after today; `null`: it is over. */
export const photoNext = (days: readonly number[], today: number): number | null =>
  days.filter((day) => day > today).toSorted((a, b) => a - b)[0] ?? null;

export interface DueBy {
  readonly window: UnmouldWindow;
  /** Days from cutting on which a log is photographed. */
  readonly photos: readonly number[];
  /** Counted from its day 0; `null`: nothing is forecast. */
  readonly forecast: { readonly from: number; readonly is: CureForecast } | null;
  readonly now: number;
}

/** A log that can come out, in the order things are done. In the freezer it waits for a person. */
export const dueOf = (row: BarsSummary, { window, photos, forecast, now }: DueBy): readonly Due[] => {
  if (row.cut === null) {
    if (isOut(row)) return ['cut'];
    return row.unmould?.state !== 'freezer' && hoursSince(row.poured, now) >= window.from ? ['unmould'] : [];
  }
  if (row.counts.shelf + row.counts.away === 0) return [];
  const today = daysBetween(row.cut.wall, now);
  const photo = photoDue(photos, row.photos.last === null ? [] : [daysBetween(row.cut.wall, row.photos.last)], today);
  return [
    ...(isToWeigh(row, forecast, now) ? (['weigh'] as const) : []),
    ...(photo === null ? [] : (['photo'] as const)),
    ...(isNews(forecast, now) ? (['ready'] as const) : []),
  ];
};

/** What is ready is weighed for nobody's date any more. */
const isToWeigh = (row: BarsSummary, forecast: DueBy['forecast'], now: number): boolean => {
  if (row.weighings.length === 0) return true;
  if (forecast === null) return false;
  const { next, ready } = forecast.is;
  const today = daysBetween(forecast.from, now);
  return next !== null && today >= next.day && (ready.middle === 'later' || today < ready.middle);
};

const isNews = (forecast: DueBy['forecast'], now: number): boolean => {
  const middle = forecast?.is.ready.middle ?? 'later';
  if (forecast === null || middle === 'later') return false;
  const day = daysBetween(forecast.from, now);
  return day >= middle && day < middle + NEWS_DAYS;
};
