import type { Monotonic } from '#lib/units/time';

const HOUR_MS = 3_600_000;

/** Counts losses of the last hour. */
export interface Losses {
  add(at: Monotonic): void;
  lastHour(now: Monotonic): number;
}

export const createLosses = (): Losses => {
  const times: Monotonic[] = [];
  return {
    add(at) {
      times.push(at);
    },
    lastHour(now) {
      while (times[0] !== undefined && now - times[0] >= HOUR_MS) times.shift();
      return times.length;
    },
  };
};
