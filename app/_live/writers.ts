import { liveStore } from './start';
import type { LiveState } from './store';

type Write = (state: LiveState) => void;

const writers = new Set<Write>();

/**
 * Writes changing digits straight into the page, told of every change before anything is drawn anew: a reading must not wait until a
 * screen has been drawn. Returns the way to stop.
 */
export const onLive = (write: Write): (() => void) => {
  writers.add(write);
  return () => void writers.delete(write);
};

// Subscribed with the module, so before every part of the page. What fails here must not keep the others from blanking a value.
liveStore.subscribe((state) => {
  for (const write of writers) {
    try {
      write(state);
    } catch (error) {
      reportError(error);
    }
  }
});
