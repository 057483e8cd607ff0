import type { LiveState, LiveStore } from './store';

type Write = (state: LiveState) => void;

/**
 * What writes changing texts straight into the page, told of every change before anything is drawn anew: a reading must not wait until a
 * screen has been drawn. Made before every part of the page. Returns the way to join, which returns the way to stop.
 */
export const createWriters = (store: Pick<LiveStore, 'subscribe'>): ((write: Write) => () => void) => {
  const writers = new Set<Write>();
  // What fails here must not keep the others from blanking a value.
  store.subscribe((state) => {
    for (const write of writers) {
      try {
        write(state);
      } catch (error) {
        reportError(error);
      }
    }
  });
  return (write) => {
    writers.add(write);
    return () => void writers.delete(write);
  };
};
