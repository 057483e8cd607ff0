import type { CureWatch, ReadyRule } from '#lib/soap/shrink/index';
import { numberOf } from '../formula/index';
import type { CureKept } from './documents';
import type { BarsSummary } from './summary';

const DAY_MS = 86_400_000;
const MILLION = 1e6;
const GRAM = 1000;
/** A first weighing within this many days of cutting stands for the weight at cutting. */
const AT_CUTTING = 1;
/** g. Assumed of a scale that is unknown because every weight was typed. */
const TYPED_STEP = 1;

/** What the forecast of a lot goes by, and the day it counts from. */
export interface Followed {
  readonly watch: CureWatch;
  /** Wall time of day 0. */
  readonly from: number;
  /** Weight at cutting of one followed bar, grams. */
  readonly cutWeight: number;
  /** `late`: first weighed days after cutting, and what it had lost until then is not known. `expected`: not weighed yet. */
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
    return { watch, from: cut.wall, cutWeight: weight, basis: 'expected' };
  }
  const late = daysBetween(cut.wall, first.wall) > AT_CUTTING;
  const from = late ? first.wall : cut.wall;
  const weight = first.sum / first.bars / GRAM;
  const step = Math.max(...weighings.map((one) => one.step)) / GRAM;
  const later = weighings.slice(1).map(({ wall, sum, first: then }) => ({ day: (wall - from) / DAY_MS, loss: 1 - sum / then }));
  const watch = { water: water / MILLION, bars: first.bars, cutWeight: weight, step: step > 0 ? step : TYPED_STEP, weighings: later };
  return { watch, from, cutWeight: weight, basis: late ? 'late' : 'weighed' };
};

/** The maker's rule as the forecast reads it. */
export const ruleOf = ({ days, perWeek }: Pick<CureKept, 'days' | 'perWeek'>): ReadyRule => {
  const percent = perWeek === null ? null : numberOf(perWeek);
  return { days, perWeek: percent === null ? null : percent / 100 };
};

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
