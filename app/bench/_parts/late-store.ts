'use client';
import { createStore } from 'zustand/vanilla';
import type { StoreApi } from 'zustand/vanilla';

/** How long after a part did not come it is asked for again by itself, ms. */
export const AGAIN_AFTER_MS = 5_000;

/** Parts of a page by their names; one that was not fetched yet is missing. `failed`: the last try did not bring all of them. */
export type LateState<P> = Partial<P> & { readonly failed: boolean };

export interface LateParts<P> {
  readonly store: StoreApi<LateState<P>>;
  /** Fetches what is missing, in order, each whether or not the one before it came. Does nothing while it is at it. */
  readonly fetch: () => Promise<void>;
}

/**
 * Parts of a page that come after it. A server may be gone at just that moment: what does not come is asked for again, by itself and by a
 * press, and what is there stays. `after` runs something later.
 */
export const createLateParts = <P extends object>(
  loads: readonly (() => Promise<Partial<P>>)[],
  after: (ms: number, run: () => void) => void,
): LateParts<P> => {
  const store = createStore<LateState<P>>(() => ({ failed: false }) as LateState<P>);
  let missing = loads;
  let fetching = false;
  const fetch = async (): Promise<void> => {
    if (fetching) return;
    fetching = true;
    const still: (() => Promise<Partial<P>>)[] = [];
    for (const load of missing) {
      try {
        store.setState((await load()) as Partial<LateState<P>>);
      } catch {
        still.push(load);
      }
    }
    fetching = false;
    missing = still;
    store.setState({ failed: still.length > 0 } as Partial<LateState<P>>);
    if (still.length > 0) after(AGAIN_AFTER_MS, () => void fetch());
  };
  return { store, fetch };
};
