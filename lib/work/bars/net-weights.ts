import type { BarsState } from './state';
import { standingWeights } from './standing';

/** What a lot's content is looked at by, grams. */
export interface NetWeights {
  /** In the order they were weighed; a bar weighed twice counts as it was last. */
  readonly weights: readonly number[];
  /** Coarsest step of the scales that told them; `null`: all were typed. */
  readonly step: number | null;
}

const GRAM = 1000;

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
