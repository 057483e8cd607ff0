import { sumOf } from '#lib/units/sum';
import { milliCelsius, type MilliCelsius } from '#lib/units/temperature';
import { foretellLye } from './lye-making';
import type { BatchState, VesselState } from './state';

interface OverRating {
  /** Hottest the lye may get, by what is not known of it (k = 2), and what its jug is made for. */
  readonly peak: MilliCelsius;
  readonly rating: MilliCelsius;
}

/** The part of all hydroxide, to be weighed still or weighed, that is not dissolved in this jug yet. */
const stillDry = ({ lines }: BatchState, jug: VesselState): number => {
  const own = Object.values(lines).filter(({ plan }) => plan.material.class === 'hydroxide');
  const all = sumOf(own, ({ plan, actual }) => Math.max(plan.target, actual));
  const dissolved = jug.state === 'dissolved' ? sumOf(own, ({ plan }) => jug.holds[plan.id] ?? 0) : 0;
  return all > 0 ? Math.max(0, all - dissolved) / all : 0;
};

/**
 * Whether the lye would get hotter than its jug is made for, from what its liquid has now: hydroxide is locked then. Of lye that is partly made
 * what is still dry brings its part of the rise, a little more than it truly does. `null`: it does not, or nobody has said what the jug bears,
 * or how hot the lye gets. `liquid`: by probe or hand; `null`, as the plan was worked out: a workshop's, and frozen what was to be frozen.
 */
export const overRating = (state: BatchState, liquid: MilliCelsius | null): OverRating | null => {
  const known = newest.get(state);
  if (known !== undefined && known.liquid === liquid) return known.found;
  const found = workedOut(state, liquid);
  newest.set(state, { liquid, found });
  return found;
};

/** The bench asks with every reading, of a batch that does not change and a liquid that stands. */
const newest = new WeakMap<BatchState, { readonly liquid: MilliCelsius | null; readonly found: OverRating | null }>();

const workedOut = (state: BatchState, liquid: MilliCelsius | null): OverRating | null => {
  const jug = Object.values(state.vessels).find(({ plan }) => plan.use === 'liquid');
  const rating = jug?.plan.hottest;
  if (jug === undefined || rating === undefined) return null;
  const told = foretellLye(state, liquid === null ? null : liquid / 1000);
  if (told === null) return null;
  const { value, u } = told.peak.atMost;
  const upper = told.start + (value + 2 * u - told.start) * stillDry(state, jug);
  // Upwards, so that what is told never reads as what the jug is made for.
  const peak = milliCelsius(Math.ceil(10 * upper) * 100);
  return peak > rating ? { peak, rating } : null;
};
