import type { MassUnit, Milligrams } from '#lib/units/mass';
import type { MassReading } from '../reading';
import { flickerAfter, flickerStep, NO_FLICKER } from './division';
import type { Flicker } from './division';

/**
 * One scale followed through time: what it takes to say that a weight has settled. Pure and plain data; a new value per frame.
 * Rules and constants were tried in simulation (tests/benchmark/calibration); the instrument's own stable flag only vetoes, because
 * relying on it let wrong weights through even on undisturbed lines.
 */
export interface Track {
  readonly unit: MassUnit | null;
  /** What a person said that the scale can tell apart, mg; 0: nobody did. */
  readonly told: number;
  /** Scale division, mg: the last digit shown, or more when that was said or the figure only ever moves in larger steps. */
  readonly division: number;
  readonly flicker: Flicker;
  /** Newest last; `frames[i]` was read at `times[i]` as `masses[i]`. Bounded. */
  readonly times: readonly number[];
  readonly masses: readonly number[];
  readonly frames: readonly MassReading[];
  /** Frames before this moment do not count towards a settled window. */
  readonly dwellFrom: number;
  /** Not settled before this moment: a display that jumped and froze may jump again. */
  readonly frozenUntil: number;
  /** Size of the newest frame-to-frame jump that has only been followed by identical frames, and how many of them. */
  readonly jump: number;
  readonly same: number;
  /** Usual interval between frames, ms; 0 until known. */
  readonly period: number;
  /** Frames that came sooner than the interval allows: a drained backlog. */
  readonly backlog: number;
  /** Noise of a settled weight, standard deviation, mg. */
  readonly sigma: number;
  /** How long this scale takes over a set-down, ms: 1.25 × its 15–85 % rise. */
  readonly rise: number;
  readonly stable: boolean;
  /** Stable by the rule that grants a window, not only by the laxer one that keeps it. */
  readonly firm: boolean;
  /** Frames in a row that the instrument itself called moving. */
  readonly moving: number;
  /** Mean of the settled window; meaningless unless `stable`. */
  readonly level: number;
  readonly news: News;
}

/** What the newest frame brought besides its value. */
export type News = 'first' | 'next' | 'gap' | 'burst' | 'unit' | 'out-of-range';

/** 128 frames are 6.4 s at 20 a second: the longest window any rule looks through. */
const KEPT = 128;
const PERIOD_SHARE = 0.1;
const GAP_LEAST = 500;
const GAP_PERIODS = 3.5;
/** Two frames in one chunk are usual on USB; a third ahead of its time is a backlog. Each frame is allowed a fifth of its interval. */
const BACKLOG = 1.8;
const ALLOWED = 0.8;
const FREEZE_FRAMES = 3;
const FREEZE_MS = 3000;
const RISE_LEAST = 300;
const RISE_MOST = 2500;
const RISE_UNKNOWN = 800;
const DWELL_LEAST = 1200;
const DWELL_MOST = 3000;
const FRAMES_LEAST = 4;
/** A window that stands is given up less readily than it was granted: noise at its edge must not make it come and go. */
const KEEP = 1.5;

export const startTrack = (division: number, told = 0): Track => ({
  unit: null,
  told,
  division,
  flicker: NO_FLICKER,
  times: [],
  masses: [],
  frames: [],
  dwellFrom: -Infinity,
  frozenUntil: -Infinity,
  jump: 0,
  same: 0,
  period: 0,
  backlog: 0,
  sigma: division / 2,
  rise: RISE_UNKNOWN,
  stable: false,
  firm: false,
  moving: 0,
  level: 0,
  news: 'first',
});

/** The span within which a settled weight may wander: four times its noise, at least one division, at most three. */
export const span = (track: Track): number => Math.min(Math.max(4 * track.sigma, track.division), 3 * track.division);

/** How long a weight must stand still to be settled, ms. */
export const dwell = (track: Track): number => Math.min(Math.max(1000 + track.rise, DWELL_LEAST), DWELL_MOST);

/** Longest silence that is still the usual rhythm, ms. */
export const gapAfter = (track: Track): number => Math.max(GAP_LEAST, GAP_PERIODS * track.period);

/** Forgets the motion so far but not what was learnt of the instrument: the next settled window begins after `at`. */
export const restart = (track: Track, at: number): Track => ({ ...track, dwellFrom: at, stable: false });

/** The track after one more frame. A frame without a mass ends the window and is not kept. */
export const follow = (track: Track, reading: MassReading): Track => {
  const at = reading.at;
  const count = track.times.length;
  const last = count > 0 ? (track.times[count - 1] ?? at) : at;
  const since = at - last;
  if (reading.mass === null) return { ...track, news: 'out-of-range', stable: false, dwellFrom: at, jump: 0, same: 0 };
  if (track.unit !== null && track.unit !== reading.unit) return changeUnit(track, reading);
  if (count === 0) return keep(track, reading, reading.mass, 'first', at);
  const gap = since > gapAfter(track);
  const period = gap ? track.period : track.period === 0 ? since : track.period + PERIOD_SHARE * (since - track.period);
  const backlog = period === 0 ? 0 : Math.min(Math.max(track.backlog + ALLOWED - since / period, 0), BACKLOG + 1);
  const paced = { ...track, period, backlog };
  if (gap) return keep(paced, reading, reading.mass, 'gap', at);
  if (backlog >= BACKLOG) return keep(paced, reading, reading.mass, 'burst', at);
  return keep(paced, reading, reading.mass, 'next', track.dwellFrom);
};

const changeUnit = (track: Track, reading: MassReading): Track => ({
  ...startTrack(Math.max(track.told, reading.step), track.told),
  unit: reading.unit,
  period: track.period,
  rise: track.rise,
  dwellFrom: reading.at,
  news: 'unit',
});

const pushed = <T>(list: readonly T[], item: T): T[] => {
  const next = list.length < KEPT ? list.slice() : list.slice(list.length - KEPT + 1);
  next.push(item);
  return next;
};

const keep = (track: Track, reading: MassReading, mass: number, news: News, dwellFrom: number): Track => {
  const before = track.masses.at(-1) ?? mass;
  const change = Math.abs(mass - before);
  const flicker = flickerAfter(track.flicker, mass - before, reading.step);
  const jump = mass === before ? track.jump : change;
  const same = mass === before ? track.same + 1 : 0;
  const froze = same === FREEZE_FRAMES && jump > 3 * span(track);
  const next: Track = {
    ...track,
    unit: reading.unit,
    flicker,
    // A scale may show fewer digits of a heavier load.
    division: Math.max(flickerStep(flicker) ?? track.told, reading.step),
    moving: reading.motion === 'moving' ? track.moving + 1 : 0,
    times: pushed(track.times, reading.at),
    masses: pushed(track.masses, mass),
    frames: pushed(track.frames, reading),
    dwellFrom,
    jump,
    same,
    frozenUntil: froze ? reading.at + FREEZE_MS : track.frozenUntil,
    news,
  };
  return judge(next, reading);
};

/** Is the newest window settled, and what does it say of the noise? */
const judge = (track: Track, reading: MassReading): Track => {
  const now = reading.at;
  const wanted = dwell(track);
  if (now - track.dwellFrom < wanted) return { ...track, stable: false };
  const first = firstSince(track, now - wanted);
  const count = track.times.length - first;
  const earliest = track.times[first] ?? now;
  if (count < FRAMES_LEAST || now - earliest < wanted - 2 * track.period) return { ...track, stable: false };
  const seen = spread(track.masses, first);
  const limit = span(track);
  const within = (share: number): boolean => seen.range <= 1.05 * share * limit && seen.halves <= 0.5 * share * limit;
  const strict = within(1);
  const still = strict || (track.stable && within(KEEP));
  const quiet = still || (seen.halves <= 0.25 * seen.range && seen.range <= 6 * track.division);
  const floor = 0.29 * track.division; // a uniform rounding error alone
  const sigma = quiet ? Math.max(floor, Math.sqrt(track.sigma ** 2 + 0.1 * (seen.variance - track.sigma ** 2))) : track.sigma;
  const vetoed = track.moving > (track.stable ? 1 : 0);
  const stable = still && !vetoed && now >= track.frozenUntil;
  return { ...track, sigma, stable, firm: stable && strict && track.moving === 0, level: seen.mean };
};

/** Index of the first kept frame not older than `moment`. */
export const firstSince = (track: Track, moment: number): number => {
  let index = track.times.length;
  while (index > 0 && (track.times[index - 1] ?? 0) >= moment) index -= 1;
  return index;
};

const spread = (masses: readonly number[], first: number): { range: number; halves: number; mean: number; variance: number } => {
  const count = masses.length - first;
  const middle = first + (count >> 1);
  let least = Infinity;
  let most = -Infinity;
  let early = 0;
  let all = 0;
  let squares = 0;
  const base = masses[first] ?? 0;
  for (let index = first; index < masses.length; index += 1) {
    const value = (masses[index] ?? 0) - base;
    if (value < least) least = value;
    if (value > most) most = value;
    if (index < middle) early += value;
    all += value;
    squares += value * value;
  }
  const mean = all / count;
  const halves = Math.abs((all - early) / (count - (count >> 1)) - early / (count >> 1));
  return { range: most - least, halves, mean: base + mean, variance: Math.max(squares / count - mean * mean, 0) };
};

/**
 * The frame that stands for the settled window: the one whose mass is its median, so that gross, text and raw bytes in the record are
 * one and the same reading. `null` unless settled.
 */
export const settledFrame = (track: Track): { readonly frame: MassReading; readonly gross: Milligrams } | null => {
  if (!track.stable) return null;
  const newest = track.times.at(-1) ?? 0;
  const window = track.frames.slice(firstSince(track, newest - dwell(track)));
  window.sort((a, b) => (a.mass ?? 0) - (b.mass ?? 0));
  const frame = window[window.length >> 1];
  return frame === undefined || frame.mass === null ? null : { frame, gross: frame.mass };
};

/**
 * Learns the scale's slowness from a set-down that has just settled: from `empty` up to its level now. What stood there all along, or came
 * while nobody listened, tells nothing of it.
 */
export const learnRise = (track: Track, empty: number): Track => {
  const height = track.level - empty;
  const low = empty + 0.15 * height;
  const high = empty + 0.85 * height;
  let index = track.masses.length - 1;
  while (index >= 0 && (track.masses[index] ?? 0) >= high) index -= 1;
  const reached = track.times[index + 1];
  while (index >= 0 && (track.masses[index] ?? 0) > low) index -= 1;
  const left = track.times[index];
  if (reached === undefined || left === undefined || left < track.dwellFrom) return track;
  return { ...track, rise: Math.min(Math.max(1.25 * (reached - left), RISE_LEAST), RISE_MOST) };
};
