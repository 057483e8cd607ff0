/** After waking, reconnecting or a dialog appearing, a finger already on its way meant something else. */
export const SWALLOW_MS = 600;

export interface Guard {
  /** Swallow presses from now on for a moment; presses already begun are void. */
  quiet(): void;
  /** Whether a press that begins now counts. */
  open(): boolean;
  /** Rises with every `quiet`; a press whose beginning saw another number is void. */
  epoch(): number;
}

/** @param tell Hears until when presses are swallowed, on the clock given. */
export const createGuard = (now: () => number, tell?: (until: number) => void): Guard => {
  let until = -Infinity;
  let epoch = 0;
  return {
    quiet() {
      until = now() + SWALLOW_MS;
      epoch += 1;
      tell?.(until);
    },
    open: () => now() >= until,
    epoch: () => epoch,
  };
};
