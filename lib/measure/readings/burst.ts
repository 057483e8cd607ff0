import type { Monotonic } from '#lib/units/time';

/**
 * Readings that were waiting while the server itself stood still come all at once and would all be stamped "now". Two pure parts: a
 * watch that notices that the loop stood still, and for each instrument the arrivals, which say what to do with a reading.
 *
 * Every timer tick and every chunk, before its readings are looked at, asks `loopRan`; when it reports a stall, every instrument gets
 * `afterStall`. Then each reading asks `arrived`.
 */
export interface LoopWatch {
  readonly ranAt: Monotonic | null;
}

export const UNWATCHED: LoopWatch = { ranAt: null };

/** The loop is asked at least this often. */
export const LOOP_TICK_MS = 50;
/** A loop not heard of for so long stood still: what it reads next may be old. Half of the 500 ms that no shown weight may exceed. */
export const STALL_MS = 250;

export interface Stall {
  readonly from: Monotonic;
  readonly to: Monotonic;
}

export const loopRan = (watch: LoopWatch, now: Monotonic): { watch: LoopWatch; stall: Stall | null } => {
  const stalled = watch.ranAt !== null && now - watch.ranAt > STALL_MS;
  return { watch: { ranAt: now }, stall: stalled && watch.ranAt !== null ? { from: watch.ranAt, to: now } : null };
};

/** How the readings of one instrument arrive. */
export interface Arrivals {
  readonly last: Monotonic | null;
  /** Since when what had piled up is being emptied: nothing is believed until a reading comes at its own pace. `null`: nothing had. */
  readonly draining: Monotonic | null;
}

export const NO_ARRIVALS: Arrivals = { last: null, draining: null };

/**
 * `paced`: it was waited for, so it is new. `burst`: it came within a fifth of the usual interval, which settling does not count.
 * `stall-discard`: it may have waited through a stall and is thrown away, counted under that name.
 */
export type Pace = 'paced' | 'burst' | 'stall-discard';

const BURST_PERIODS = 0.2;
/** A reading that let half an interval pass found nothing queued before it. */
const PACED_PERIODS = 0.5;
const PACED_LEAST_MS = 20;
const PACED_UNKNOWN_MS = 100;
/** No line lets out its backlog for longer: then any reading that was not right behind another counts. */
const DRAINED_AFTER_MS = 2_000;

export const afterStall = (stall: Stall): Arrivals => ({ last: stall.to, draining: stall.to });

/** How long a reading must have let pass. A rhythm learnt among silences and stalls may be far too slow: it never makes anybody wait for ever. */
const pacedAfter = (period: number | null, drainingFor: number): number => {
  if (drainingFor > DRAINED_AFTER_MS) return PACED_LEAST_MS;
  return period === null ? PACED_UNKNOWN_MS : Math.min(Math.max(PACED_PERIODS * period, PACED_LEAST_MS), PACED_UNKNOWN_MS);
};

/** Judges a reading by its arrival; `period` is the usual interval in ms, `null` while unknown. */
export const arrived = (arrivals: Arrivals, at: Monotonic, period: number | null): { arrivals: Arrivals; pace: Pace } => {
  const interval = arrivals.last === null ? Infinity : at - arrivals.last;
  if (arrivals.draining !== null) {
    const waitedFor = interval >= pacedAfter(period, at - arrivals.draining);
    return { arrivals: { last: at, draining: waitedFor ? null : arrivals.draining }, pace: waitedFor ? 'paced' : 'stall-discard' };
  }
  const burst = period !== null && interval < BURST_PERIODS * period;
  return { arrivals: { last: at, draining: null }, pace: burst ? 'burst' : 'paced' };
};
