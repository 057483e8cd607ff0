import { amount } from '../check';
import { fatHeatCapacity } from '../heat/fat';
import type { Estimate, Source } from '../source';
import { mixingHeat, mixingPeak, type Mixing } from './mixing-peak';

/** What is mixed, with all that takes up heat. Grams, °C. */
export interface Making extends Mixing {
  /** Fat of a milk, and its sugar, protein and the like. */
  readonly fat?: number;
  readonly solids?: number;
  /** How cold the frozen part comes from the freezer; 0 where not said. */
  readonly iceCelsius?: number;
  /** The jug: grams and J/(g K). It starts as warm as the liquid. */
  readonly jug?: { readonly grams: number; readonly perGram: Estimate } | null;
}

export interface MakingPeak {
  /** With the jug and what a milk holds warmed along, no heat lost to the room. */
  readonly likely: Estimate;
  /** Nothing warmed but the lye: what locks and ratings go by. */
  readonly atMost: Estimate;
}

/** The temperature the heat balance stands on. */
const BASIS = 25;
/** J/(g K): ice, and sugar and protein in solution. */
const ICE = 2.1;
const SOLIDS = 1.6;
const SOLIDS_SOURCE = 'ice 2.1, dry matter of milk 1.6 J/(g K), from memory';

/**
 * How hot lye gets as it is made, started at `celsius` (its ice colder).
 * @throws RangeError for lye stronger than the tables: a peak that is not known is no number.
 */
export const makingPeak = (making: Making, celsius: number): MakingPeak => {
  const { fat = 0, solids = 0, iceCelsius = 0, frozen = 0, jug = null } = making;
  const atMost = mixingPeak(making, celsius);
  const { released, cold, solution, capacity, u } = mixingHeat(making, celsius);
  const along =
    amount(fat, 'the fat of a milk') * fatHeatCapacity(BASIS).value +
    amount(solids, 'the dry matter of a milk') * SOLIDS +
    (jug === null ? 0 : amount(jug.grams, 'the mass of the jug') * jug.perGram.value);
  const colder = frozen * ICE * Math.max(0, -iceCelsius);
  const whole = solution * capacity + along;
  const value = BASIS + (released - cold - colder - along * (BASIS - celsius)) / whole;
  const uJug = jug === null ? 0 : (jug.grams * jug.perGram.u * (value - celsius)) / whole;
  const share = (solution * capacity) / whole;
  const text = `${atMost.source.text}; warmed along: ${jug === null ? '' : `the jug (${jug.perGram.source.text}), `}${SOLIDS_SOURCE}`;
  const source: Source = { text, grade: 'computed' };
  // Colder than its ice nothing gets: some of it is left.
  const likely = { value: Math.max(value, Math.min(0, iceCelsius)), u: Math.hypot(share * u.heat, share * u.capacity, uJug), source };
  return { likely, atMost };
};

/** How to start so that lye stays under a ceiling, the doubt of the prediction (2 u) counted against it. */
export type StartAdvice =
  | { readonly kind: 'as-it-is'; readonly peak: Estimate }
  /** Cool the liquid to this whole degree first. */
  | { readonly kind: 'cold'; readonly celsius: number; readonly peak: Estimate }
  /** Freeze at least this share of the water, the rest ice-cold. */
  | { readonly kind: 'frozen'; readonly share: number; readonly peak: Estimate }
  /** Not by cold alone: in small portions on ice, each waited for (common practice, no source). */
  | { readonly kind: 'in-portions'; readonly peak: Estimate };

const STEPS = 20;

export const startUnder = (making: Making, celsius: number, ceiling: number): StartAdvice => {
  const under = ({ value, u }: Estimate): boolean => value + 2 * u <= ceiling;
  const asItIs = makingPeak(making, celsius).likely;
  if (under(asItIs)) return { kind: 'as-it-is', peak: asItIs };
  for (let start = Math.ceil(celsius) - 1; start >= 0; start -= 1) {
    const peak = makingPeak(making, start).likely;
    if (under(peak)) return { kind: 'cold', celsius: start, peak };
  }
  const already = (making.frozen ?? 0) / making.water;
  for (let step = 1; step <= STEPS; step += 1) {
    const share = step / STEPS;
    if (share <= already) continue;
    const peak = makingPeak({ ...making, frozen: share * making.water }, 0).likely;
    if (under(peak)) return { kind: 'frozen', share, peak };
  }
  return { kind: 'in-portions', peak: makingPeak({ ...making, frozen: making.water }, 0).likely };
};

/** A peak without where its figures come from. */
interface PeakValues {
  readonly likely: Pick<Estimate, 'value' | 'u'>;
  readonly atMost: Pick<Estimate, 'value' | 'u'>;
}

/** What the lye then did. `above`: hotter than the masses allow, so they are to be looked at. `reached`: share of the rise foretold. */
export interface PeakFound {
  readonly verdict: 'as-foretold' | 'below' | 'above';
  readonly apart: number;
  readonly reached: number;
}

/** A probe, and heat that leaves while granules go in slowly: less than this apart is as foretold, K. Ours. */
const AS_FORETOLD = 5;

/** `seen`: the highest a probe said, °C; `start` as it was. */
export const comparePeak = ({ likely, atMost }: PeakValues, start: number, seen: number): PeakFound => {
  const apart = seen - likely.value;
  const near = Math.max(AS_FORETOLD, 2 * likely.u);
  const above = seen > atMost.value + Math.max(2 * atMost.u, 2);
  const verdict = above ? 'above' : Math.abs(apart) <= near || apart > 0 ? 'as-foretold' : 'below';
  return { verdict, apart, reached: likely.value > start ? (seen - start) / (likely.value - start) : Number.NaN };
};
