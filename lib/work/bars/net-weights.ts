import { countsOf } from './counts';
import type { BarsState, BarWeight } from './state';
import { standingWeights } from './standing';

const GRAM = 1000;

/** A known mass on a scale, grams: the newest that stands. */
export interface MassWeighed extends Pick<BarWeight, 'entry' | 'wall' | 'offsetMin'> {
  readonly known: number;
  readonly shown: number;
  readonly step: number;
  /** On the scale that told the net weights; `false`: another did, and nothing is known of that one. */
  readonly same: boolean;
}

/** `null`: nobody has put a known mass on a scale for this lot. */
export const massWeighed = (state: BarsState): MassWeighed | null => {
  const newest = standingWeights(state, 'mass').at(-1);
  if (newest?.known === undefined || newest.scale === null) return null;
  const { known, net, scale, entry, wall, offsetMin } = newest;
  const same = standingWeights(state, 'net').every((one) => one.scale === null || one.scale.instrument === scale.instrument);
  return { entry, wall, offsetMin, known: known / GRAM, shown: net / GRAM, step: scale.step / GRAM, same };
};

/** What a lot's content is looked at by, grams. */
export interface NetWeights {
  /** In the order they were weighed; a bar weighed twice counts as it was last. */
  readonly weights: readonly number[];
  /** Coarsest step of the scales that told them; `null`: all were typed. */
  readonly step: number | null;
}

export const netWeightsOf = (state: BarsState): NetWeights => {
  const all = new Map<string, number>();
  for (const { bar, net, entry } of standingWeights(state, 'net')) {
    const key = bar === null ? entry : String(bar);
    // Weighed again it is drawn again: it stands where it was weighed last.
    all.delete(key);
    all.set(key, net / GRAM);
  }
  const steps = standingWeights(state, 'net').flatMap(({ scale }) => (scale === null ? [] : [scale.step / GRAM]));
  return { weights: [...all.values()], step: steps.length === 0 ? null : Math.max(...steps) };
};

/** Bars of a lot that an inspection is about: those that were here when the first of the net weights was taken, or are here now. */
export const inspected = (state: BarsState): number => {
  const [first] = standingWeights(state, 'net');
  const before = first === undefined ? state.moves : state.moves.filter(({ wall }) => wall < first.wall);
  const { shelf, away, aside } = countsOf(state.counts.made, before);
  return shelf + away + aside;
};
