import type { Brand } from './brand';

/** Milliseconds of this process's monotonic clock. Durations only; meaningless across boots. */
export type Monotonic = Brand<number, 'monotonic ms'>;

/** Milliseconds since 1970 UTC as the wall clock had it. A label, never an order and never a duration. */
export type Wall = Brand<number, 'wall ms'>;

export const monotonic = (ms: number): Monotonic => ms as Monotonic;
export const wall = (ms: number): Wall => ms as Wall;

/** The clocks are injected everywhere: `lib` never asks the machine for the time. */
export interface Clock {
  now(): Monotonic;
  wall(): Wall;
  /** Minutes east of UTC, for the label beside a wall time. */
  offsetMinutes(): number;
}
