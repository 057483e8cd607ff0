import type { LiveFrame } from '#lib/protocol/live';
import { gist } from './frames';
import type { BenchListener } from './types';

/** Everyone who listens to one bench. */
export interface Audience {
  tell(call: (listener: BenchListener) => void): void;
  /** Returns the way to stop listening. */
  listen(listener: BenchListener): () => void;
}

/** One listener's failure is not the others', nor the bench's. */
export const createAudience = (trouble: (what: string, error: unknown) => void): Audience => {
  const listeners = new Set<BenchListener>();
  return {
    tell(call) {
      for (const listener of listeners) {
        try {
          call(listener);
        } catch (error) {
          trouble('a listener failed', error);
        }
      }
    },
    listen(listener) {
      listeners.add(listener);
      return () => void listeners.delete(listener);
    },
  };
};

/** What rides with the next weight goes out by itself after this long. */
const SLOW_FRAME_MS = 250;

/** Sends frames out, numbered from 1. */
export interface Showing {
  /** Frames made so far. */
  count(): number;
  /**
   * `event`: a weight, a press, a commit: at once. `aside`: a temperature; `clock`: nothing was read and nobody pressed. These go at once only
   * when a person would miss them, else with the next weight or after a while, so that no weight ever waits behind them.
   */
  show(frame: LiveFrame, by: 'event' | 'aside' | 'clock'): void;
}

export const createShowing = (audience: Audience): Showing => {
  let n = 0;
  let shown = '';
  let shownAt = -Infinity;
  let owed = false;
  const wanted = (frame: LiveFrame, by: 'aside' | 'clock'): boolean => {
    owed ||= by === 'aside' || counting(frame);
    return (owed && frame.at - shownAt >= SLOW_FRAME_MS) || gist(frame) !== shown;
  };
  return {
    count: () => n,
    show(frame, by) {
      if (by !== 'event' && !wanted(frame, by)) return;
      n += 1;
      shownAt = frame.at;
      owed = false;
      const numbered = { ...frame, n };
      audience.tell((listener) => listener.frame?.(numbered));
      // Looked at only now: nobody waits for it.
      shown = gist(frame);
    },
  };
};

/** Something in it runs on while nothing is read. */
const counting = ({ cue }: LiveFrame): boolean => cue.acceptsIn !== null || cue.settle !== null;
