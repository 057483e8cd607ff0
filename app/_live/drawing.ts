import type { StoreApi } from 'zustand/vanilla';

/** A store whose changes are told to what draws the page. */
export interface Drawing<S> extends Pick<StoreApi<S>, 'getState' | 'getInitialState' | 'subscribe'> {
  /** Makes a change of which only what writes digits is told at once; whatever draws is told in a task of its own, once for all that came. */
  digitsFirst(change: () => void): void;
}

/**
 * A reading must not wait until a screen has been drawn: with each one some sixty selectors are asked whether anything else changed. What is
 * drawn then is the newest state, never one of an earlier reading.
 */
export const createDrawing = <S>(store: StoreApi<S>, inTask: (run: () => void) => void): Drawing<S> => {
  const listeners = new Set<Parameters<StoreApi<S>['subscribe']>[0]>();
  let told = store.getState();
  let held = false;
  let waiting = false;

  const tell = (): void => {
    waiting = false;
    const [state, before] = [store.getState(), told];
    told = state;
    if (state === before) return;
    for (const listener of listeners) listener(state, before);
  };
  store.subscribe(() => {
    if (!held) return tell();
    if (!waiting) inTask(() => waiting && tell());
    waiting = true;
  });

  return {
    getState: store.getState,
    getInitialState: store.getInitialState,
    subscribe(listener) {
      listeners.add(listener);
      return () => void listeners.delete(listener);
    },
    digitsFirst(change) {
      held = true;
      try {
        change();
      } finally {
        held = false;
      }
    },
  };
};

/** Runs in the next task, one after another: not by a timer, which a hidden page holds back. */
export const inNextTask = (): ((run: () => void) => void) => {
  const runs: (() => void)[] = [];
  let port: MessagePort | null = null;
  const open = (): MessagePort => {
    const { port1, port2 } = new MessageChannel();
    port1.addEventListener('message', () => runs.shift()?.());
    port1.start();
    return port2;
  };
  return (run) => {
    runs.push(run);
    // Not before it is needed: the export of the pages imports this too, and would wait for the channel for ever.
    port ??= open();
    // Waking the next task takes a tenth of a millisecond: whoever waits for what was just written is told first.
    queueMicrotask(() => port?.postMessage(null));
  };
};
