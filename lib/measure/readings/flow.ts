import type { Track } from './settle';

/**
 * Flow of a pour and when to ease off. Times in ms, masses in mg, flow in mg per ms (grams per second).
 * Fixed lag: what is still falling, the scale's own delay and the hand's. Constants from simulated hands (tests/benchmark/calibration).
 */
export interface Flow {
  /** Slope now, least squares. */
  readonly rate: number;
  /** Change of the slope, mg per ms². */
  readonly change: number;
  /** Standard deviation of the level that the slope predicts at the newest frame, mg. */
  readonly doubt: number;
}

export const STILL: Flow = { rate: 0, change: 0, doubt: 0 };

const SPAN_LEAST = 600;
const SPAN_MOST = 2000;
const FRAMES_LEAST = 4;
/** From the ear to the hand and from the spout to the pot, ms; the scale's own delay comes on top. */
const HAND_LAG = 400;
const CURVE_SHARE = 0.5;
const DIVISION_SHARE = 0.5;
const CAUTION = 0.15;

interface Line {
  readonly slope: number;
  readonly residual: number;
  readonly count: number;
}

const fit = (track: Track, first: number, end: number): Line => {
  const count = end - first;
  const t0 = track.times[first] ?? 0;
  const g0 = track.masses[first] ?? 0;
  let st = 0;
  let sg = 0;
  let stt = 0;
  let stg = 0;
  let sgg = 0;
  for (let index = first; index < end; index += 1) {
    const t = (track.times[index] ?? 0) - t0;
    const g = (track.masses[index] ?? 0) - g0;
    st += t;
    sg += g;
    stt += t * t;
    stg += t * g;
    sgg += g * g;
  }
  const vt = stt - (st * st) / count;
  const slope = vt > 0 ? (stg - (st * sg) / count) / vt : 0;
  const rest = sgg - (sg * sg) / count - slope * slope * vt;
  return { slope, residual: Math.max(rest, 0), count };
};

/** Flow over at least 0.6 s and 4 frames, over more of the past while less than eight divisions have come, up to 2 s. */
export const flowOf = (track: Track): Flow => {
  const end = track.times.length;
  const now = track.times[end - 1];
  if (now === undefined || end < FRAMES_LEAST) return STILL;
  const newest = track.masses[end - 1] ?? 0;
  let first = end - 1;
  while (first > 0) {
    const age = now - (track.times[first] ?? now);
    const enough = age >= SPAN_LEAST && end - first >= FRAMES_LEAST;
    if (enough && (age >= SPAN_MOST || Math.abs(newest - (track.masses[first] ?? newest)) >= 8 * track.division)) break;
    if ((track.times[first - 1] ?? 0) < track.dwellFrom) break;
    first -= 1;
  }
  if (end - first < FRAMES_LEAST) return STILL;
  const whole = fit(track, first, end);
  const middle = first + ((end - first) >> 1);
  const half = ((track.times[end - 1] ?? 0) - (track.times[first] ?? 0)) / 2;
  const early = fit(track, first, middle + 1);
  const late = fit(track, middle, end);
  const change = half > 0 && early.count >= 3 && late.count >= 3 ? (late.slope - early.slope) / half : 0;
  return { rate: whole.slope, change, doubt: Math.sqrt(whole.residual / Math.max(whole.count - 2, 1)) };
};

/**
 * What would still arrive if the hand stopped at this cue, mg. `learnt`: how much slower this hand is than most, ms. Mean delay of a filter is half of `rise`, which is 1.25 × the 15–85 % rise
 * (0.5 × for a running mean, 0.58 × for one pole).
 */
export const overshootOf = (flow: Flow, track: Track, learnt = 0): number => {
  if (flow.rate <= 0) return 0;
  const lag = 0.5 * track.rise * 0.8 + HAND_LAG;
  const curve = Math.min(Math.max(flow.change * lag * lag, -flow.rate * lag), 0);
  // What was learnt is what pours ended beside this, per flow: it is added to the whole, not to the lag under the curve.
  return Math.max(0, flow.rate * (lag + learnt) + DIVISION_SHARE * track.division + CURVE_SHARE * curve);
};

/** Is it time to ease off, with `left` still to pour? */
export const easeOffNow = (flow: Flow, track: Track, left: number, learnt = 0): boolean => {
  if (flow.rate <= 0) return false;
  const spread = Math.sqrt(flow.doubt ** 2 + (0.6 * track.division) ** 2 + (200 * flow.rate) ** 2);
  return overshootOf(flow, track, learnt) + CAUTION * spread >= left;
};
