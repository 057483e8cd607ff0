import { asPoured } from '#lib/work/batch/poured/index';
import { createRandom } from '../random';
import { jobOf } from './workshop';
import { simulate } from './weigh';

/** What the program said of one batch, and what was true of it. Fractions. */
export interface Scored {
  readonly truth: number;
  readonly low: number;
  readonly high: number;
  readonly worst: { readonly low: number; readonly high: number };
  readonly lyeHeavy: number;
}

export const scoreOf = (batches: number, seed: number): readonly Scored[] =>
  Array.from({ length: batches }, (_, n) => {
    const random = createRandom(seed, n);
    const { state, superfat } = simulate(jobOf(random), random);
    const answer = asPoured(state);
    if (answer.kind !== 'figures' || answer.superfat === null) throw new Error(`batch ${n}: ${answer.kind}`);
    const { low, high, worst, lyeHeavy } = answer.superfat;
    return { truth: superfat, low, high, worst, lyeHeavy };
  });

export const median = (all: readonly number[]): number => all.toSorted((a, b) => a - b)[Math.floor(all.length / 2)] ?? Number.NaN;

/** Share of batches whose truth lies in the interval. */
export const coverage = (all: readonly Scored[]): number =>
  all.filter(({ truth, low, high }) => truth >= low && truth <= high).length / all.length;

/** Batches by the chance they were given of being lye-heavy. */
export interface Bin {
  readonly from: number;
  readonly to: number;
  readonly count: number;
  readonly said: number;
  readonly heavy: number;
  /** How far the two may lie apart: three standard deviations of so many draws, and three points. */
  readonly allowed: number;
}

const EDGES = [0, 0.001, 0.01, 0.05, 0.15, 0.3, 0.5, 0.7, 0.85, 0.95, 1] as const;
const POINTS = 0.03;

export const reliability = (all: readonly Scored[]): readonly Bin[] =>
  EDGES.slice(1).map((to, at): Bin => {
    const from = EDGES[at] ?? 0;
    const inside = all.filter(({ lyeHeavy }) => lyeHeavy >= from && (lyeHeavy < to || to === 1));
    const count = inside.length;
    const said = count === 0 ? 0 : inside.reduce((sum, one) => sum + one.lyeHeavy, 0) / count;
    const heavy = count === 0 ? 0 : inside.filter(({ truth }) => truth < 0).length / count;
    return { from, to, count, said, heavy, allowed: 3 * Math.sqrt((said * (1 - said)) / Math.max(1, count)) + POINTS };
  });

export const isCalibrated = ({ count, said, heavy, allowed }: Bin): boolean => count === 0 || Math.abs(said - heavy) <= allowed;
