import type { Timers } from '#lib/measure/link/timers';

/** Node's own timers, for `createLink`. */
export const nodeTimers: Timers = {
  set: (run, ms) => setTimeout(run, ms),
  clear: (timer) => clearTimeout(timer as NodeJS.Timeout),
};
