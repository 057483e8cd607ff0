/** What the way a figure flickers says of the steps it moves in: a display may show more digits than its scale can tell apart. */
export interface Flicker {
  /** Step of the last digit shown, mg. */
  readonly step: number;
  /** What all moves so far are multiples of, in steps; 0 before the first. */
  readonly finest: number;
  readonly moves: number;
  /** Sign of the newest change. */
  readonly way: number;
}

export const NO_FLICKER: Flicker = { step: 0, finest: 0, moves: 0, way: 0 };

/** So many moves show in what steps the figure moves. */
const ENOUGH = 12;
/** More last digits at once are no flicker: something was poured or set down. */
const MOST = 20;

/**
 * After one more change of the figure, mg. A move counts only where it turns back: a steady stream goes up by the same few digits with
 * every frame for seconds, and says nothing of the scale.
 */
export const flickerAfter = (before: Flicker, change: number, step: number): Flicker => {
  if (change === 0) return before;
  const way = Math.sign(change);
  const known = before.step === step ? before : { ...NO_FLICKER, step };
  const steps = Math.round(Math.abs(change) / step);
  if (known.way !== -way || steps === 0 || steps > MOST) return { ...known, way };
  return { step, finest: common(known.finest, steps), moves: known.moves + 1, way };
};

/** The steps the figure moves in, mg; `null` before enough of it was seen. */
export const flickerStep = ({ step, finest, moves }: Flicker): number | null => (moves >= ENOUGH ? finest * step : null);

const common = (a: number, b: number): number => {
  let [high, low] = [a, b];
  while (low > 0) [high, low] = [low, high % low];
  return high;
};
