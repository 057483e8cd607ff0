import type { MilliCelsius } from '#lib/units/temperature';
import { milliKelvin } from '#lib/units/temperature';
import type { Monotonic } from '#lib/units/time';

/** What tells whether lye heats itself: the first that a probe or a person said of it since it was made, in this boot, and the highest. */
export interface LyeHeat {
  readonly first: MilliCelsius;
  /** Followed by steps. */
  readonly highest: MilliCelsius;
}

/** All that is remembered of lye since it was made; `null`: nothing was heard of it yet. */
export interface LyeSeen extends LyeHeat {
  /** The lowest since it began to come down, and when it last was lower than before, or, before it had cooled, higher. */
  readonly least: MilliCelsius;
  readonly moved: Monotonic;
  readonly last: MilliCelsius;
}

/** Less is a probe's noise or the step of its scale, thousandths of a K. Ours, no source. */
const STEP = 500;
/** In portions lye comes down by a little between two; what has come down by so much is cooling. Ours. */
const COOLING = 10_000;

/** Whether it came down from its highest by more than it does between two portions. */
export const hasCooled = ({ highest, least }: LyeSeen): boolean => highest - least >= COOLING;

/** One more value. What has cooled and is warm again keeps the least it had come down to, or a hob would pass for lye just made. */
export const seeLye = (seen: LyeSeen | null, value: MilliCelsius, at: Monotonic): LyeSeen => {
  if (seen === null) return { first: value, highest: value, least: value, moved: at, last: value };
  if (value >= seen.highest + STEP)
    return hasCooled(seen) ? { ...seen, highest: value, last: value } : { ...seen, highest: value, least: value, moved: at, last: value };
  if (value <= seen.least - STEP) return { ...seen, least: value, moved: at, last: value };
  return { ...seen, last: value };
};

/** Less is a probe's noise. Ours, no source. */
const TURN = milliKelvin(1_000);

/**
 * Freshly made lye passes up through the window on its way to 80 °C and more: it heats as long as it has risen since it was made and has
 * not fallen from its highest, by a probe or as typed. A lye that was never seen to rise (cold by now, made before a restart, typed
 * once) does not heat as far as anybody knows.
 */
export const lyeStillHeats = (seen: LyeHeat | null, lye: MilliCelsius | null): boolean => {
  if (seen === null || lye === null) return false;
  const highest = Math.max(seen.highest, lye);
  return highest - seen.first >= TURN && highest - lye < TURN;
};
