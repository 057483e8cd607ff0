import { LAST_DAY } from '#lib/soap/shrink/index';
import type { ReadySpread } from '#lib/soap/shrink/index';
import { addDays, dayOf } from '#lib/units/day';
import type { Day } from '#lib/units/day';
import type { BarsSummary } from '../bars/index';
import type { Making, Takes } from './propose';
import type { ReadyDay, Supply } from './reserve';

/** What was forecast of one bar lot: days from `from` (wall time, ms). */
export interface Forecast {
  readonly from: number;
  readonly ready: ReadySpread;
}

/** Days of a spread; past what is forecast its last day stands, which is then not the latest. */
export const takesOf = ({ low, middle, high }: ReadySpread): Takes => ({ early: told(low), likely: told(middle), late: told(high) });

const told = (days: ReadySpread['low']): number => (days === 'later' ? LAST_DAY : days);

/** Days of a lot's forecast. Past what is forecast the last day stands, which is then not the latest: such bars are promised to nobody. */
export const readyDayOf = ({ from, ready }: Forecast, offsetMin: number): ReadyDay | null => {
  if (ready.high === 'later') return null;
  return after(dayOf(from, offsetMin), takesOf(ready));
};

const GRAM = 1000;

/** Several stages one after another: each as early, as likely and as late as it may be. */
export const together = (...takes: readonly Takes[]): Takes =>
  takes.reduce((sum, { early, likely, late }) => ({ early: sum.early + early, likely: sum.likely + likely, late: sum.late + late }), {
    early: 0,
    likely: 0,
    late: 0,
  });

/** The days it takes from a day on. */
export const after = (day: Day, { early, likely, late }: Takes): ReadyDay => ({
  from: addDays(day, early),
  likely: addDays(day, likely),
  by: addDays(day, late),
});

/**
 * Bars that are there: cut ones by their own forecast, logs that are not cut yet as their formula's usual way makes them. Held bars, and
 * those nobody can say a day of, are promised to nobody.
 */
export const suppliesOf = (
  rows: readonly BarsSummary[],
  forecasts: ReadonlyMap<string, Forecast>,
  makings: readonly Making[],
  offsetMin: number,
): readonly Supply[] =>
  rows.flatMap((row): readonly Supply[] => {
    if (row.held !== null) return [];
    const { mark, formula } = row;
    const making = makings.find((one) => one.formula === formula.id);
    if (row.cut !== null) {
      const forecast = forecasts.get(row.id);
      const ready = forecast === undefined ? null : readyDayOf(forecast, offsetMin);
      const label = row.label === null ? null : row.label / GRAM;
      return ready === null || row.counts.shelf < 1 ? [] : [{ mark, formula: formula.id, bars: row.counts.shelf, label, ready }];
    }
    const one = making?.each[row.mould.id ?? ''];
    if (making === undefined || one === undefined) return [];
    const ready = after(dayOf(row.poured, offsetMin), together(making.unmould, making.cut, making.cure));
    return [{ mark, formula: formula.id, bars: one * row.moulds, label: making.label, ready }];
  });
