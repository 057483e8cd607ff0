import type { CureForecast, CureWatch, ReadyRule, ReadySpread } from '#lib/soap/shrink/index';
import { numberOf } from '../formula/index';
import type { CureKept } from './documents';
import type { BarsSummary } from './summary';

const DAY_MS = 86_400_000;
const MILLION = 1e6;
const GRAM = 1000;
/** A first weighing later than so many days after cutting is told to be late. */
const AT_CUTTING = 1;
/** g. Assumed of a scale that is unknown because every weight was typed. */
const TYPED_STEP = 1;

/** What the forecast of a lot goes by, and the day it counts from. */
export interface Followed {
  readonly watch: CureWatch;
  /** Wall time of day 0. */
  readonly from: number;
  /** Of one followed bar when it was first weighed, grams; before that as it was to be cut. */
  readonly firstWeight: number;
  /** `late`: first weighed days after cutting: what it had lost until then is forecast with the rest. `expected`: not weighed yet. */
  readonly basis: 'weighed' | 'late' | 'expected';
}

/** Why there is nothing to forecast from. */
export type Unfollowed = 'not-cut' | 'no-water' | 'no-weight';

type Row = Pick<BarsSummary, 'cut' | 'water' | 'weighings'>;

/** Whole days between two moments. */
export const daysBetween = (from: number, to: number): number => Math.floor((to - from) / DAY_MS);

/** What is known of a lot's loss so far. */
export const followedBy = ({ cut, water, weighings }: Row): Followed | Unfollowed => {
  if (cut === null) return 'not-cut';
  if (water === null) return 'no-water';
  const [first] = weighings;
  if (first === undefined) {
    if (cut.mass === null) return 'no-weight';
    const weight = cut.mass / GRAM;
    const watch = { water: water / MILLION, bars: 1, cutWeight: weight, step: TYPED_STEP, weighings: [] };
    return { watch, from: cut.wall, firstWeight: weight, basis: 'expected' };
  }
  // A bar loses most of all in its first days: what it weighed then is not what was cut.
  const days = (wall: number): number => Math.max(0, wall - cut.wall) / DAY_MS;
  const weight = first.sum / first.bars / GRAM;
  const step = Math.max(...weighings.map((one) => one.step)) / GRAM;
  const later = weighings.slice(1).map(({ wall, sum, first: then }) => ({ day: days(wall), loss: 1 - sum / then }));
  const watch = {
    water: water / MILLION,
    bars: first.bars,
    cutWeight: weight,
    step: step > 0 ? step : TYPED_STEP,
    from: days(first.wall),
    weighings: later,
  };
  return { watch, from: cut.wall, firstWeight: weight, basis: daysBetween(cut.wall, first.wall) > AT_CUTTING ? 'late' : 'weighed' };
};

/** What is forecast to be lost by a day, between whole ones too. */
const lostBy = ({ loss }: Pick<CureForecast, 'loss'>, day: number): number => {
  const at = Math.min(day, loss.length - 1);
  const [before, after] = [loss[Math.floor(at)]?.middle ?? 0, loss[Math.ceil(at)]?.middle ?? 0];
  return before + (after - before) * (at - Math.floor(at));
};

/**
 * One followed bar since it was cut: what it weighed then, grams, and the share it had lost at each weighing. Where it was first weighed later
 * both rest on what is forecast to have been lost until then.
 */
export const sinceCut = (
  { watch, firstWeight }: Followed,
  forecast: Pick<CureForecast, 'loss'>,
): { readonly cutWeight: number; readonly points: readonly { readonly day: number; readonly loss: number }[] } => {
  const from = watch.from ?? 0;
  const before = lostBy(forecast, from);
  const points = watch.weighings.map(({ day, loss }) => ({ day, loss: 1 - (1 - loss) * (1 - before) }));
  return { cutWeight: firstWeight / (1 - before), points: [{ day: from, loss: before }, ...points] };
};

/** The maker's rule as the forecast reads it. */
export const ruleOf = ({ days, perWeek }: Pick<CureKept, 'days' | 'perWeek'>): ReadyRule => {
  const percent = perWeek === null ? null : numberOf(perWeek);
  return { days, perWeek: percent === null ? null : percent / 100 };
};

/** A rule of days alone needs no weight: when a lot is ready by it, however little is known of its bars. `null`: it is no such rule. */
export const readyByDays = (
  { cut }: Pick<Row, 'cut'>,
  { days, perWeek }: ReadyRule,
): { readonly from: number; readonly ready: ReadySpread } | null =>
  cut === null || days === null || perWeek !== null ? null : { from: cut.wall, ready: { low: days, middle: days, high: days } };

/** Lots teach when they were followed so long, with so many weighings after the first. */
const TAUGHT_AFTER = 28;
const TAUGHT_BY = 2;
/** Fits cost time; the newest say most of how this maker's bars dry. */
const MOST_LESSONS = 12;

/** A lot that teaches how this maker's bars dry. */
export interface Lesson {
  readonly id: string;
  readonly watch: CureWatch;
}

/** Lots to learn this maker from, oldest first. None may teach about itself. */
export const lessonsIn = (all: readonly (Row & Pick<BarsSummary, 'id'>)[]): readonly Lesson[] =>
  all
    .flatMap((row) => {
      const found = followedBy(row);
      if (typeof found === 'string' || found.basis !== 'weighed') return [];
      const { weighings } = found.watch;
      const enough = weighings.length >= TAUGHT_BY && (weighings.at(-1)?.day ?? 0) >= TAUGHT_AFTER;
      return enough ? [{ at: found.from, id: row.id, watch: found.watch }] : [];
    })
    .toSorted((a, b) => a.at - b.at)
    .slice(-MOST_LESSONS)
    .map(({ id, watch }) => ({ id, watch }));
