import type { MilliCelsius } from '#lib/units/temperature';
import { milliCelsius, milliKelvin } from '#lib/units/temperature';

/** What a probe or a person has said of the lye since it was made, in this boot: the first of it and the highest. `null`: nothing yet. */
export interface LyeSeen {
  readonly first: MilliCelsius;
  readonly highest: MilliCelsius;
}

export const seeLye = (seen: LyeSeen | null, value: MilliCelsius): LyeSeen =>
  seen === null ? { first: value, highest: value } : { first: seen.first, highest: milliCelsius(Math.max(seen.highest, value)) };

/** Less is a probe's noise. Ours, no source. */
const TURN = milliKelvin(1_000);

/**
 * Freshly made lye passes up through the window on its way to 80 °C and more: it heats as long as it has risen since it was made and has
 * not fallen from its highest, by a probe or as typed. A lye that was never seen to rise (cold by now, made before a restart, typed
 * once) does not heat as far as anybody knows.
 */
export const lyeStillHeats = (seen: LyeSeen | null, lye: MilliCelsius | null): boolean => {
  if (seen === null || lye === null) return false;
  const highest = Math.max(seen.highest, lye);
  return highest - seen.first >= TURN && highest - lye < TURN;
};
