import { meanOf } from '#lib/units/sum';
import type { Track } from './settle';

/**
 * What stands out of a stream by its shape: more in the time of a set-down than flows before and after it, or less than either, beside a flow
 * that is even. A stream that swells, thins, glugs or is short is uneven; something laid into it, or a hand or cable that comes, is not.
 */
export interface Bulge {
  /** Middle of it, monotonic ms. */
  readonly at: number;
  /** All that came with it beyond the flow, mg, signed. */
  readonly size: number;
  /** How far the time of a set-down stands out of the flow beside it, mg; never negative. */
  readonly apart: number;
  /** The same where that flow is even, no pause and worth knowing; else 0. */
  readonly plain: number;
  /** The reading fell in it: of something taken out it does, unless as much flowed in meanwhile; of a stream that thins or pauses never. */
  readonly fell: boolean;
}

/**
 * Shares of the time of a set-down that are looked at, for how many such times the flow is looked at beside it, and how many times further
 * out it stands than that flow is uneven, upwards and downwards. On 1,388 undisturbed lines these and `laidIn` ask some 30 times; of 124
 * in which something laid in, a hand or a cable made the weight wrong they see 97.
 */
const VIEWS = [
  { share: 0.7, beside: 0.7, more: 2, less: 1 },
  { share: 0.5, beside: 1, more: 1.5, less: 1.5 },
] as const;
const STEPS_LEAST = 2;
/** A stream that stops for less than this, ms, was not stopped by a hand. Ours. */
const PAUSE_LEAST = 800;
/** Among the bulges of one pour, one that counts is so many times the next: streams surge and glug by themselves. */
const OUTSTANDING = 2;
/** How many are kept in each direction. */
const KEPT = 3;
/** Two that are nearer than so many set-downs are one. */
const ONE = 1.05;

/** Of something laid in while nothing flows: most of what came in a while around it came in the time of one set-down. */
const LAID_SHARE = 0.8;
/** Flow before, and right after, as shares of it. */
const LAID_BEFORE = 0.2;
const LAID_AFTER = 0.5;

/** Readings at even intervals, the newest last: `span` intervals make up `time` ms. */
interface Even {
  readonly masses: readonly number[];
  readonly span: number;
  readonly interval: number;
  readonly time: number;
}

const setDown = (track: Track): number => track.rise + track.period;

/** The newest so many spans and parts of one; `null` where they reach beyond `from` or what made the past worthless. */
const evenly = (track: Track, time: number, from: number, lengthOf: (span: number) => number): Even | null => {
  const now = track.times.at(-1);
  if (now === undefined || track.period <= 0) return null;
  const interval = Math.max(track.period, 50);
  const span = Math.max(STEPS_LEAST, Math.round(time / interval));
  const count = lengthOf(span);
  const first = now - count * interval;
  if (first < Math.max(track.dwellFrom, from, track.times[0] ?? now)) return null;
  const masses = Array.from({ length: count + 1 }, () => 0);
  let index = track.times.length - 1;
  for (let back = 0; back <= count; back += 1) {
    const moment = now - back * interval;
    while (index > 0 && (track.times[index] ?? 0) > moment) index -= 1;
    masses[count - back] = between(track, index, moment);
  }
  return { masses, span, interval, time };
};

/** Straight between the frame of this index and the next. */
const between = (track: Track, index: number, moment: number): number => {
  const t0 = track.times[index] ?? moment;
  const g0 = track.masses[index] ?? 0;
  const t1 = track.times[index + 1];
  const g1 = track.masses[index + 1];
  return t1 === undefined || g1 === undefined || t1 <= t0 ? g0 : g0 + ((g1 - g0) * (moment - t0)) / (t1 - t0);
};

const beside = (gains: readonly number[]): { readonly mean: number; readonly range: number } => ({
  mean: meanOf(gains),
  range: Math.max(...gains) - Math.min(...gains),
});

/** The bulges whose sides have just come into view; `least`: smallest worth knowing, mg. Nothing before `from` is looked at. */
export const bulgesIn = (track: Track, least: number, from: number): readonly Bulge[] =>
  VIEWS.map((view) => bulgeIn(track, least, from, view)).filter((bulge) => bulge !== null);

const bulgeIn = (track: Track, least: number, from: number, view: (typeof VIEWS)[number]): Bulge | null => {
  const sideOf = (span: number): number => Math.max(1, Math.round(view.beside * span));
  const even = evenly(track, view.share * setDown(track), from, (span) => 3 * span + 2 * sideOf(span));
  if (even === null) return null;
  const { masses, span, interval, time } = even;
  const side = sideOf(span);
  const gain = (start: number): number => (masses[start + span] ?? 0) - (masses[start] ?? 0);
  const gains = (start: number): number[] => Array.from({ length: side + 1 }, (_, index) => gain(start + index));
  const start = span + side;
  const early = beside(gains(0));
  const late = beside(gains(start + span));
  const [less, more] = early.mean < late.mean ? [early, late] : [late, early];
  const middle = gain(start);
  const isMore = middle > more.mean;
  const apart = isMore ? middle - more.mean : less.mean - middle;
  if (apart <= 0) return null;
  const flow = (early.mean + late.mean) / 2;
  const size = (masses[start + 2 * span] ?? 0) - (masses[start - span] ?? 0) - 3 * flow;
  const uneven = isMore ? view.more * more.range : view.less * less.range;
  const pause = !isMore && (flow <= 0 || -size >= (PAUSE_LEAST / time) * flow);
  const plain = apart >= Math.max(least, 6 * track.sigma) && apart >= uneven && !pause;
  const at = (track.times.at(-1) ?? 0) - (masses.length - 1 - start) * interval + time / 2;
  return { at, size: isMore ? Math.max(size, apart) : Math.min(size, -apart), apart, plain: plain ? apart : 0, fell: middle < -least / 2 };
};

const isAlike = (a: Bulge, b: Bulge): boolean => a.size * b.size > 0;

/** The bulges of a pour with one more sighting: the furthest out in either direction, each by its largest. */
export const withBulge = (bulges: readonly Bulge[], seen: Bulge, track: Track, least: number): readonly Bulge[] => {
  // What a bulge worth knowing is OUTSTANDING times as far out as does not count against it.
  if (seen.apart < least / OUTSTANDING) return bulges;
  const apart = ONE * setDown(track);
  const near = bulges.find((one) => isAlike(one, seen) && Math.abs(one.at - seen.at) <= apart);
  if (near !== undefined) {
    if (seen.apart <= near.apart && seen.plain <= near.plain) return bulges;
    const far = seen.apart > near.apart ? seen : near;
    const both = { plain: Math.max(seen.plain, near.plain), fell: seen.fell || near.fell };
    return bulges.map((one) => (one === near ? { ...far, ...both } : one));
  }
  const same = [...bulges.filter((one) => isAlike(one, seen)), seen].toSorted((a, b) => b.apart - a.apart).slice(0, KEPT);
  return [...bulges.filter((one) => !isAlike(one, seen)), ...same];
};

/** Those that no other bulge of the pour comes near to. */
export const outstanding = (bulges: readonly Bulge[]): readonly Bulge[] =>
  bulges.filter(
    (one) => one.plain > 0 && bulges.every((other) => other === one || !isAlike(other, one) || one.plain >= OUTSTANDING * other.apart),
  );

/**
 * Something laid in while nothing flowed, or barely, in the view that has just come: the time of a set-down, all of it, and a moment after.
 * A short squirt takes longer, and a stream that begins goes on.
 */
export const laidIn = (track: Track, least: number, from: number): { readonly at: number; readonly size: number } | null => {
  const even = evenly(track, setDown(track), from, (span) => 2 * span + afterOf(span));
  if (even === null) return null;
  const { masses, span, interval, time } = even;
  const after = afterOf(span);
  const mass = (index: number): number => masses[index] ?? 0;
  const size = mass(2 * span) - mass(span);
  if (size < Math.max(least, 6 * track.sigma)) return null;
  if (mass(span) - mass(0) > LAID_BEFORE * size) return null;
  if (((mass(2 * span + after) - mass(2 * span)) * span) / after > LAID_AFTER * size) return null;
  if (size < mass(2 * span + 1) - mass(span + 1) || size < mass(2 * span - 1) - mass(span - 1)) return null;
  if (size < LAID_SHARE * (mass(2 * span + after) - mass(0))) return null;
  return { at: (track.times.at(-1) ?? 0) - (span + after) * interval + time / 2, size };
};

const afterOf = (span: number): number => Math.max(1, Math.round(0.5 * span));
