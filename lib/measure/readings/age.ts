import type { Monotonic } from '#lib/units/time';
import type { Freshness } from '../reading';

/**
 * How old an instrument's newest reading is. Kept by the server from its own monotonic clock, asked on a tick, so that silence
 * itself makes a value late and then lost. Plain data; nothing stored ever comes back fresh.
 */
export interface Age {
  /** Arrival of the newest reading; `null`: none since the start, or forgotten. */
  readonly at: Monotonic | null;
  /** Usual interval between readings, ms; `null` until two have come. Survives silence. */
  readonly period: number | null;
  /** Intervals it was learnt from, counted up to `LEARNT`. */
  readonly learnt: number;
}

export const NEVER_HEARD: Age = { at: null, period: null, learnt: 0 };

const LEARNT = 10;
/** A value is lost after five times its usual interval; the convention of marine data servers (Signal K, 2026), bounded here. */
const LOST_PERIODS = 5;
const LATE_PERIODS = 2.5;
const LATE_LEAST_MS = 500;
const LATE_MOST_MS = 1500;
const LOST_LEAST_MS = 1500;
/** However slow an instrument is, three seconds of silence lose it. It has to speak at least once a second to stay fresh. */
export const LOST_MOST_MS = 3000;

const within = (value: number, least: number, most: number): number => Math.min(Math.max(value, least), most);

/** Silence after which a value is late, ms. */
export const lateAfter = (period: number | null): number =>
  period === null ? LATE_MOST_MS : within(LATE_PERIODS * period, LATE_LEAST_MS, LATE_MOST_MS);

/** Silence after which a value is lost, ms. */
export const lostAfter = (period: number | null): number =>
  period === null ? LOST_MOST_MS : within(LOST_PERIODS * period, LOST_LEAST_MS, LOST_MOST_MS);

/** A reading arrived. Readings thrown away (after a stall, say) are not told here. */
export const heard = (age: Age, at: Monotonic): Age => {
  if (age.at === null) return { ...age, at };
  const interval = at - age.at;
  if (age.period === null) return { at, period: interval > 0 ? interval : null, learnt: 1 };
  // One long silence says little of the rhythm; an instrument that really slowed down is followed within a few readings.
  const counted = age.learnt < LEARNT ? interval : Math.min(interval, LOST_PERIODS * age.period);
  const learnt = Math.min(age.learnt + 1, LEARNT);
  return { at, period: age.period + (counted - age.period) / learnt, learnt };
};

/** After a suspend, a clock jump or a lost port: the value is lost at once, the rhythm stays known. */
export const forget = (age: Age): Age => ({ ...age, at: null });

export const freshness = (age: Age, now: Monotonic): Freshness => {
  if (age.at === null) return 'lost';
  const silence = now - age.at;
  if (silence > lostAfter(age.period)) return 'lost';
  return silence > lateAfter(age.period) ? 'late' : 'fresh';
};

/** Milliseconds since the newest reading; `null` when there is none. */
export const ageOf = (age: Age, now: Monotonic): number | null => (age.at === null ? null : Math.max(0, now - age.at));
