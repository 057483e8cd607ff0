import type { BootId } from '#lib/units/id';
import { milliCelsius, type MilliCelsius } from '#lib/units/temperature';
import { lyeStillHeats, type LyeHeat } from './heating';
import { withTyped } from './joining';
import type { BatchState, VesselState } from './state';

interface Seen {
  /** By the probe of the liquid or lye; `null`: nothing. */
  readonly lye: MilliCelsius | null;
  readonly lyeSeen: LyeHeat | null;
  readonly boot: BootId;
  readonly mono: number;
}

/** What the liquid or lye has; of probe and hand the hotter counts. `null`: neither says. */
export const hottestSaid = (state: BatchState, { lye, boot, mono }: Omit<Seen, 'lyeSeen'>): MilliCelsius | null => {
  const typed = withTyped(state, { lye: null, oils: null, milk: null }, boot, mono).lye;
  const said = [lye, typed].filter((one) => one !== null);
  return said.length === 0 ? null : milliCelsius(Math.max(...said));
};

/**
 * How hot the liquid or lye in a jug is, where that is too hot for hydroxide; `null` where nothing says so. Hydroxide goes into cold
 * liquid, more of it only into cooled lye: a tick is a person's word, and counts only while no probe and no typed temperature says
 * otherwise. Of probe and hand the hotter counts. Limit: the highest at which lye and oils are joined. Common practice, no source.
 */
export const tooHotForHydroxide = (state: BatchState, jug: VesselState, seen: Seen): MilliCelsius | null => {
  const hottest = hottestSaid(state, seen);
  if (hottest === null) return null;
  const heats = jug.state === 'dissolved' && lyeStillHeats(seen.lyeSeen, hottest);
  return hottest > state.plan.joining.window.high || heats ? hottest : null;
};
