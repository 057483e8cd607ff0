/**
 * How bars dry: a stretched exponential (√t at first, exponential late), a room that wanders about it, and a belief that learns the maker.
 *
 * - `forecastCure(watch, rule, …)` → ready date, loss by day, next weighing, each with what it may miss by.
 * - `learnFrom(maker, lots)` → the belief after lots that are done.
 * - `weightOn(forecast, day, cutWeight)` → what a bar weighs on a day.
 *
 * A plain exponential fitted to the first weeks covers next to nothing later, √t likewise: 12–18 and 3–14 of 100 in simulation. Validated
 * on simulated lots only (`npm run calibration:cure`).
 */
import { fitLot, isSound } from './fit';
import { learnLot, UNKNOWN_MAKER, type MakerBelief } from './maker';
import { nextWeighing } from './next-weighing';
import { drawPaths } from './paths';
import { checkRule, readyDay } from './ready';
import { LAST_DAY } from './types';
import type { CureForecast, CureWatch, Day, ReadyRule, ReadySpread, Spread90 } from './types';

export type * from './types';
export type { MakerBelief } from './maker';
export { UNKNOWN_MAKER } from './maker';
export { LAST_DAY, SIMILAR_DAY, WINDOW } from './types';
export { seededNumbers } from './generator';

const DRAWS = 600;
const [LOW, MIDDLE, HIGH] = [0.05, 0.5, 0.95] as const;
/** Losses are told to a tenth of a per cent; interval ends go outward to it. */
const TOLD = 1000;

const quantile = (ascending: ArrayLike<number>, share: number): number => {
  const at = share * (ascending.length - 1);
  const [below, above] = [Math.floor(at), Math.ceil(at)];
  const [a, b] = [ascending[below] as number, ascending[above] as number];
  return a === b ? a : a + (at - below) * (b - a);
};

const told = (day: number, round: (value: number) => number): Day => (day > LAST_DAY ? 'later' : round(day));

const spreadOf = (ready: Float64Array): ReadySpread => ({
  low: told(quantile(ready, LOW), Math.floor),
  middle: told(quantile(ready, MIDDLE), Math.round),
  high: told(quantile(ready, HIGH), Math.ceil),
});

const lossOn = (paths: readonly Float64Array[], day: number): Spread90 => {
  const all = Float64Array.from(paths, (path) => path[day] as number).toSorted();
  return {
    low: Math.floor(quantile(all, LOW) * TOLD) / TOLD,
    middle: quantile(all, MIDDLE),
    high: Math.ceil(quantile(all, HIGH) * TOLD) / TOLD,
  };
};

export interface CureQuestion {
  readonly watch: CureWatch;
  readonly rule: ReadyRule;
  /** Days since cutting. */
  readonly today: number;
  readonly maker?: MakerBelief;
  /** Numbers from 0 up to 1; the same ones give the same answer. */
  readonly uniform: () => number;
}

/** Everything that is forecast of a lot. Works before the first weighing: then from cutting alone, and wide. @throws RangeError */
export const forecastCure = ({ watch, rule, today, maker = UNKNOWN_MAKER, uniform }: CureQuestion): CureForecast => {
  checkRule(rule);
  const paths = drawPaths(fitLot(watch, maker), uniform, DRAWS);
  const days = paths.map((path) => readyDay(path, rule));
  const ready = Float64Array.from(days).toSorted();
  const middle = quantile(ready, MIDDLE);
  return {
    model: 'stretched-exponential',
    learnedFrom: maker.lots,
    weighings: watch.weighings.length,
    ready: spreadOf(ready),
    readyBy: days.filter((day) => day <= today).length / days.length,
    loss: Array.from({ length: LAST_DAY + 1 }, (_, day) => lossOn(paths, day)),
    next: rule.perWeek === null ? null : nextWeighing(watch, today, paths, days, middle),
  };
};

/** The belief in a maker after lots that are done, oldest first. A lot without weighings teaches nothing. @throws RangeError */
export const learnFrom = (lots: readonly CureWatch[], start: MakerBelief = UNKNOWN_MAKER): MakerBelief =>
  lots.reduce((maker, lot) => {
    if (lot.weighings.length === 0) return maker;
    const { before, after } = fitLot(lot, maker);
    const learned = learnLot(maker, before, after);
    return isSound(learned) ? learned : maker;
  }, start);

/** A single bar differs from its lot by this much beyond its own weight at cutting, as a fraction. Tuned in simulation; untested on real bars. */
const ONE_BAR = 0.0024;
const NINETY = 1.645;

/** What a bar of so many grams at cutting weighs on a whole day from 0 to `LAST_DAY`; grams. @throws RangeError past it */
export const weightOn = ({ loss }: Pick<CureForecast, 'loss'>, day: number, cutWeight: number): Spread90 => {
  const on = loss[day];
  if (on === undefined) throw new RangeError(`a weight is forecast for whole days up to ${LAST_DAY}`);
  const own = day === 0 ? 0 : NINETY * ONE_BAR;
  const half = (end: number): number => Math.hypot(end - on.middle, own);
  return {
    low: cutWeight * (1 - on.middle - half(on.high)),
    middle: cutWeight * (1 - on.middle),
    high: cutWeight * (1 - on.middle + half(on.low)),
  };
};
