import type { BarsState, WeighedFor } from '#lib/work/bars/index';
import { standingWeights } from '#lib/work/bars/standing';

/** A bar only loses. Ours: a tenth of a gram and two divisions gained are damp and rounding, a fifth lost is another bar. */
const GAINS = 0.01;
const LOSES = 0.2;
/** Bars of one log differ by the hand that cuts them. Ours. */
const APART = 0.25;

/** What a bar should about weigh, mg: by its own last weight, else by others of its lot, else as it was to be cut; `null`: nobody knows. */
export const expectedOf = (
  state: BarsState,
  bar: number | null,
  purpose: WeighedFor,
): { readonly low: number; readonly high: number } | null => {
  const all = [...standingWeights(state, 'cure'), ...standingWeights(state, 'net')];
  const own = bar === null ? undefined : standingWeights(state, 'cure').findLast((one) => one.bar === bar);
  if (own !== undefined && purpose === 'cure') return { low: own.net * (1 - LOSES), high: own.net * (1 + GAINS) };
  const masses = all.slice(-20).map(({ net }) => net as number);
  const middle = masses.toSorted((a, b) => a - b)[Math.floor(masses.length / 2)] ?? state.cut?.mass ?? null;
  return middle === null ? null : { low: middle * (1 - APART), high: middle * (1 + APART) };
};
