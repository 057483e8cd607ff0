import { monotonic } from '#lib/units/time';
import type { Monotonic } from '#lib/units/time';
import type { Timers } from '#lib/measure/link/timers';

/** A clock and its timers, moved by hand. */
export interface FakeTime {
  readonly clock: { now(): Monotonic };
  readonly timers: Timers;
  /** Timers that wait to run. */
  readonly waiting: number;
  /** Moves on, running what falls due at its own moment. */
  pass(ms: number): void;
  /** Moves on as a machine that stood still: everything due runs afterwards, late. */
  stall(ms: number): void;
}

export const fakeTime = (): FakeTime => {
  let now = 0;
  let next = 1;
  const due = new Map<number, { at: number; run: () => void }>();
  const runUntil = (end: number): void => {
    for (;;) {
      const soonest = [...due].filter(([, timer]) => timer.at <= end).toSorted(([, a], [, b]) => a.at - b.at)[0];
      if (soonest === undefined) return;
      const [id, timer] = soonest;
      due.delete(id);
      now = Math.max(now, timer.at);
      timer.run();
    }
  };
  return {
    clock: { now: () => monotonic(now) },
    timers: {
      set(run, ms) {
        due.set(next, { at: now + ms, run });
        return next++;
      },
      clear: (timer) => void due.delete(timer as number),
    },
    get waiting() {
      return due.size;
    },
    pass(ms) {
      const end = now + ms;
      runUntil(end);
      now = end;
    },
    stall(ms) {
      now += ms;
      runUntil(now);
    },
  };
};
