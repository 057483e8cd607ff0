/** Nothing heard for this long on the page's own clock, and no value is believed any more: with the look every fifth of a second, under 3 s. */
export const BLANK_AFTER_MS = 2_700;
/** A message that took this much longer than the quickest of late was waiting somewhere: it speaks of the past. */
const LATE_MS = 1_000;
const WINDOW_MS = 60_000;
/** Late, but steadily so: the server's clock stood still in a suspend, and what arrives now is of now. */
const STEADY_MS = 2_000;
const STEADY_WITHIN_MS = 500;

/** Both clocks of a page. A tablet's monotonic clock may stand still while it sleeps, its wall clock may be set: each covers the other. */
export interface PageClock {
  readonly monotonic: () => number;
  readonly wall: () => number;
}

export interface Freshness {
  /** A beat or frame arrived that the server made at `at` (server ms). `false`: it was held up on the way and proves nothing. */
  heard(at: number): boolean;
  /** Whether values may stand now. */
  fresh(): boolean;
  /** The server's clock now, as well as this page knows; `null` before anything was heard. */
  serverNow(): number | null;
  /** Another boot: its clock has nothing to do with the last one's. */
  reset(): void;
}

/**
 * Judges age without trusting the link: a socket may stay "open" for a minute after the server froze, and may then hand over in one
 * burst what was said meanwhile. The quickest message of the last minute gives the distance of the two clocks; a window, because
 * clocks drift apart by a second in a night.
 */
export const createFreshness = (clock: PageClock): Freshness => {
  let last: { monotonic: number; wall: number } | null = null;
  let window: { from: number; now: number; before: number } | null = null;
  let late: { monotonic: number; at: number } | null = null;

  const distance = (): number => (window === null ? Infinity : Math.min(window.now, window.before));
  const measure = (monotonic: number, gap: number): void => {
    if (window === null) window = { from: monotonic, now: gap, before: Infinity };
    else if (monotonic - window.from > WINDOW_MS) window = { from: monotonic, now: gap, before: window.now };
    else window = { ...window, now: Math.min(window.now, gap) };
  };
  /** A burst hurries through the server's past; a shifted clock walks beside ours. */
  const isSteady = (monotonic: number, at: number): boolean => {
    if (late === null || Math.abs(monotonic - late.monotonic - (at - late.at)) > STEADY_WITHIN_MS) late = { monotonic, at };
    return monotonic - late.monotonic >= STEADY_MS;
  };

  return {
    heard(at) {
      const monotonic = clock.monotonic();
      const gap = monotonic - at;
      if (gap - distance() > LATE_MS) {
        if (!isSteady(monotonic, at)) return false;
        window = null;
      }
      late = null;
      measure(monotonic, gap);
      last = { monotonic, wall: clock.wall() };
      return true;
    },
    fresh() {
      if (last === null) return false;
      return Math.max(clock.monotonic() - last.monotonic, clock.wall() - last.wall) <= BLANK_AFTER_MS;
    },
    serverNow: () => (window === null ? null : clock.monotonic() - distance()),
    reset() {
      last = null;
      window = null;
      late = null;
    },
  };
};
