import { meanOf } from '#lib/units/sum';
import type { Block, Sample } from './types';

/** Samples of the block that is being filled. */
export interface Filling {
  readonly from: number;
  readonly samples: readonly Sample[];
}

export interface Filled {
  readonly filling: Filling;
  /** The block that this sample closed; `null` while it fills, or where it held too little. */
  readonly block: Block | null;
}

/** Short enough to notice a bath within two minutes, long enough to wash out the last digit of a probe. */
export const BLOCK_S = 20;
/** A block is believed from so many samples on, or half of what its probe sends in that time. */
const FEWEST = 5;
/** At ten a second a block holds 200; a probe that sends faster is thinned. */
const MOST = 400;
/** K from the median that is kept in any case, and times the median distance beyond. */
const KEPT = 0.3;
const KEPT_TIMES = 4.5;
/** The coarsest step of a probe: 1 °F with its rounding. */
const COARSEST_STEP = 0.6;

/** Takes in a sample. One that is not later than the last is left out. */
export const fill = (filling: Filling | null, sample: Sample): Filled => {
  if (filling === null) return { filling: { from: sample.at, samples: [sample] }, block: null };
  const { from, samples } = filling;
  if (sample.at <= (samples.at(-1)?.at ?? -Infinity)) return { filling, block: null };
  if (sample.at < from + BLOCK_S) {
    return { filling: samples.length >= MOST ? filling : { from, samples: [...samples, sample] }, block: null };
  }
  // Blocks keep their beat from the first sample on, gaps or not.
  const next = from + BLOCK_S * Math.floor((sample.at - from) / BLOCK_S);
  return { filling: { from: next, samples: [sample] }, block: blockOf(samples, sample.at) };
};

const blockOf = (samples: readonly Sample[], until: number): Block | null => {
  const gaps = samples.map(({ at }, i) => (samples[i + 1]?.at ?? until) - at);
  const wanted = Math.min(FEWEST, Math.ceil((0.5 * BLOCK_S) / median(gaps)));
  if (samples.length < wanted) return null;
  const values = samples.map(({ celsius }) => celsius);
  const middle = median(values);
  const distance = median(values.map((value) => Math.abs(value - middle)));
  const near = Math.max(KEPT, KEPT_TIMES * distance, 1.1 * stepOf(values));
  const kept = samples.filter(({ celsius }) => Math.abs(celsius - middle) <= near);
  if (kept.length < wanted) return null;
  return { at: meanOf(kept.map(({ at }) => at)), celsius: meanOf(kept.map(({ celsius }) => celsius)) };
};

/** The step of a coarse probe, so that its neighbouring digit is no outlier; 0 where the values show none. */
const stepOf = (values: readonly number[]): number => {
  const sorted = values.toSorted((a, b) => a - b);
  const steps = sorted.map((value, i) => value - (sorted[i - 1] ?? value)).filter((step) => step > 1e-6 && step <= COARSEST_STEP);
  return steps.length === 0 ? 0 : Math.min(...steps);
};

export const median = (values: readonly number[]): number => {
  const sorted = values.toSorted((a, b) => a - b);
  const half = Math.floor(sorted.length / 2);
  const upper = sorted[half] ?? Number.NaN;
  return sorted.length % 2 === 1 ? upper : (upper + (sorted[half - 1] ?? Number.NaN)) / 2;
};
