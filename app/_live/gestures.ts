/** How many fingers, pens and drops of water are on the glass now. */
export interface Glass {
  readonly touches: () => number;
  /** Calls when another touch joins one that is already there. Returns the way to stop. */
  readonly onSecond: (run: () => void) => () => void;
}

const second = new Set<() => void>();
const down = new Set<number>();

export const glass: Glass = {
  touches: () => down.size,
  onSecond(run) {
    second.add(run);
    return () => second.delete(run);
  },
};

/** Watches the whole page. Called once. */
export const watchGlass = (): void => {
  window.addEventListener(
    'pointerdown',
    (event) => {
      down.add(event.pointerId);
      if (down.size > 1) for (const run of second) run();
    },
    { capture: true },
  );
  for (const kind of ['pointerup', 'pointercancel'] as const)
    window.addEventListener(kind, (event) => void down.delete(event.pointerId), { capture: true });
  // A touch that ended outside the window, or in a page that was hidden, never says so.
  window.addEventListener('blur', () => down.clear());
};
