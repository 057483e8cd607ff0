import { figuresOf } from '#lib/soap/poured/figures';
import type { Figured, PouredFigures } from '#lib/soap/poured/types';
import { mg } from '#lib/units/mass';
import { sumOfAll } from '#lib/units/sum';
import { asPoured, lyeVerdict } from '../poured/as-poured';
import type { BatchState } from '../state';
import type { Bench } from './bench';
import { asItStands } from './programme';
import type { RemedyFigures } from './types';

const PPM = 1e6;
const ppm = (fraction: number | null | undefined): number | null =>
  fraction === null || fraction === undefined || !Number.isFinite(fraction) ? null : Math.round(fraction * PPM);

/** Figures with their doubt. Where portions have left, of what is left. */
const figured = (state: BatchState, bench: Bench, grams: readonly number[]): PouredFigures | null => {
  const answer = asPoured(state);
  if (answer.kind !== 'figures') return null;
  return state.parts.length === 0 ? answer : figuresOf(bench.pot, { grams, errors: answer.masses.errors });
};

const valueOf = (one: Figured | null | undefined): number | null => ppm(one?.value);

/** What a batch comes to, as cards show it. `null` where nothing can be worked out. `state`: as it would stand, `bench` of that state. */
export const figuresAfter = (state: BatchState, bench: Bench): RemedyFigures | null => {
  const grams = asItStands(bench);
  const figures = figured(state, bench, grams);
  if (figures === null) return null;
  const { superfat, lye, shares, fragrance, volume, full } = figures;
  const { lines } = bench.pot;
  const fats = lines.reduce((sum, { part }, at) => (part === 'fat' ? sum + (grams[at] ?? 0) : sum), 0);
  return {
    // The working value, as the plan's limits go by it; the interval is that of what is believed.
    superfat: superfat === null ? null : { value: ppm(superfat.working) ?? 0, low: ppm(superfat.low) ?? 0, high: ppm(superfat.high) ?? 0 },
    lyeHeavy: ppm(superfat?.lyeHeavy),
    lye: valueOf(lye),
    fragrance: valueOf(fragrance),
    shares: bench.stands.flatMap(({ id }, at) => {
      const share = valueOf(shares[at]);
      return share === null ? [] : [{ line: id, ppm: share }];
    }),
    fats: mg(Math.round(fats * 1000)),
    batter: mg(Math.round(sumOfAll(grams) * 1000)),
    batterMl: volume === null ? null : Math.round(volume.value),
    full: valueOf(full),
  };
};

/** Whether it is lye-heavy by what is believed of its values, where the working ones alone would pass: joining goes by the worse of both. */
export const isBelievedHeavy = (state: BatchState): boolean => {
  const answer = asPoured(state);
  return answer.kind === 'figures' && state.parts.length === 0 && lyeVerdict(answer) === 'heavy';
};
