/** The machine's timers, injected: `lib` starts none of its own. */
export interface Timers {
  /** Runs `run` once, after `ms` milliseconds. The answer is for `clear`. */
  set(run: () => void, ms: number): unknown;
  clear(timer: unknown): void;
}
