import { monotonic, wall } from '#lib/units/time';
import type { Clock } from '#lib/units/time';

/** The time of one run, turned by hand; each boot counts its own monotonic time from its start, as a process does. */
export interface ModelTime {
  /** Milliseconds since the run began. */
  now: number;
  /** What the wall clock is ahead by, through steps and suspends. */
  wallAhead: number;
  upAhead: number;
}

export const modelTime = (): ModelTime => ({ now: 0, wallAhead: 0, upAhead: 0 });

const BOOTED = 1_000;
const EPOCH = 1_760_000_000_000;

export interface BootClock extends Clock {
  up(): number;
}

export const bootClock = (time: ModelTime): BootClock => {
  const began = time.now;
  return {
    now: () => monotonic(BOOTED + time.now - began),
    wall: () => wall(EPOCH + time.now + time.wallAhead),
    offsetMinutes: () => 120,
    up: () => 500_000 + time.now + time.upAhead,
  };
};
