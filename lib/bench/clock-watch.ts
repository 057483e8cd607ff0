/** One look at the machine's clocks, all in milliseconds. */
export interface ClockLook {
  readonly mono: number;
  readonly wall: number;
  /** Time since the machine started, suspend included; `null` where the system does not say. Linux's monotonic clock stops in suspend. */
  readonly up: number | null;
}

export interface ClockJump {
  readonly byMs: number;
  readonly kind: 'wall-step' | 'suspend';
}

/** Less, between two looks, is adjustment and not a step: a time daemon slews by 0.5 ms a second at most (500 ppm, RFC 5905, section 11.3). */
export const STEP_MS = 1_000;

/**
 * What happened to the clocks between two looks; `null` when nothing did. A step of the wall clock and a suspend look alike to the
 * monotonic clock: the machine's up-time, which runs through a suspend, tells them apart. That the process itself stood still is not
 * seen here: then all three clocks ran on together.
 */
export const clockJump = (before: ClockLook, now: ClockLook): ClockJump | null => {
  const ran = now.mono - before.mono;
  const slept = before.up === null || now.up === null ? 0 : now.up - before.up - ran;
  if (slept >= STEP_MS) return { byMs: Math.round(slept), kind: 'suspend' };
  const stepped = now.wall - before.wall - ran;
  return Math.abs(stepped) >= STEP_MS ? { byMs: Math.round(stepped), kind: 'wall-step' } : null;
};
