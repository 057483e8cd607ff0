import { randomBytes } from 'node:crypto';
import { uptime } from 'node:os';
import type { Timers } from '#lib/measure/link/timers';
import { as } from '#lib/units/id';
import { monotonic, wall } from '#lib/units/time';
import type { Clock } from '#lib/units/time';

/** This machine's clocks. Monotonic time counts from the start of this process. */
export const systemClock: Clock = {
  now: () => monotonic(performance.now()),
  wall: () => wall(Date.now()),
  // Subtracted, not negated: minus zero has no form in the record.
  offsetMinutes: () => 0 - new Date().getTimezoneOffset(),
};

/** Runs through a suspend, unlike the monotonic clock. */
export const upTime = (): number => uptime() * 1000;

export const systemTimers: Timers = {
  set: (run, ms) => setTimeout(run, ms),
  clear: (timer) => clearTimeout(timer as NodeJS.Timeout),
};

/** Ninety-six random bits in a form that stands in paths and addresses. */
export const newId = <T extends string>(): T => as<T>(randomBytes(12).toString('base64url'));
