const FREE_TRIES = 5;
const FIRST_WAIT_MS = 10_000;
const LONGEST_WAIT_MS = 10 * 60_000;

/** Bounds how often something secret may be guessed: after some wrong tries everyone waits, longer each time. */
export interface Tries {
  /** Milliseconds until the next try counts; 0: now. */
  waitMs(): number;
  /** One more wrong one; returns how long to wait. */
  wrong(): number;
  right(): void;
}

export const createTries = (now: () => number): Tries => {
  let wrong = 0;
  let until = -Infinity;
  return {
    waitMs: () => Math.max(0, Math.ceil(until - now())),
    wrong() {
      wrong += 1;
      if (wrong < FREE_TRIES) return 0;
      const wait = Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS * 2 ** (wrong - FREE_TRIES));
      until = now() + wait;
      return wait;
    },
    right() {
      wrong = 0;
    },
  };
};
