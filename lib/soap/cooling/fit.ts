import { sumOfAll } from '#lib/units/sum';
import { straight } from './power';
import { roomNodes, type RoomNode } from './rooms';
import type { Block, Room, Turn } from './types';

/** One law with what was found for it: z at the newest block and its fall per second, with their covariance. */
export interface FittedLaw {
  readonly share: number;
  readonly power: number;
  readonly room: number;
  /** 1 above the room, −1 below. */
  readonly side: 1 | -1;
  readonly z: number;
  readonly k: number;
  readonly uu: number;
  readonly uk: number;
  readonly kk: number;
}

export interface Fit {
  /** Time of the newest block. */
  readonly at: number;
  readonly laws: readonly FittedLaw[];
  /** Variance of a block about the law, K², and the same with what blocks share with their neighbours. */
  readonly s2: number;
  readonly se2: number;
}

/** Powers, and how much each is believed beforehand. 1 is Newton, 1.25 still air; radiation and evaporation act like more. */
const POWERS: readonly (readonly [n: number, prior: number])[] = [
  [1, 0.8],
  [1.25, 1],
  [1.5, 1],
  [1.9, 0.7],
  [2.4, 0.4],
];
/** Seconds after which a block counts 1/e: what is nearly right for a while is wrong for long. */
const FORGET_S = 300;
/** Closer to its room than this a vessel's difference says nothing, K. */
const LEAST_DIFFERENCE = 0.25;
/** The error of a block that is believed beforehand, K, and how many blocks that belief is worth. */
const BLOCK_ERROR = 0.06;
const BELIEF = 3;
/** No block is better than this, K: over 20 min Newton's law and the power 1.25 differ by 0.07 K and must both stay possible. */
const FLOOR = 0.06;
/** What neighbouring blocks have in common, at least and at most: liquids wander slowly about their mean. */
const CORRELATION = { low: 0.6, high: 0.9 } as const;
/** A law less likely than this beside the best is left out. */
const NEGLIGIBLE = 1e-4;

interface Candidate extends Omit<FittedLaw, 'share'> {
  readonly prior: number;
  /** Weighted sum of squared residuals, K². */
  readonly sum: number;
}

/** Every law on the grid fitted to the blocks of one regime, oldest first, newest last. `null` where none can hold. */
export const fitLaws = (blocks: readonly Block[], room: Room, turn: Turn | null): Fit | null => {
  const at = blocks.at(-1)?.at;
  if (at === undefined || blocks.length < 3) return null;
  const t = blocks.map((block) => block.at - at);
  const w = t.map((time) => Math.exp(time / FORGET_S));
  const found: Candidate[] = [];
  let best: { readonly candidate: Candidate; readonly residuals: readonly number[] } | null = null;
  for (const node of roomNodes(room, turn)) {
    const differences = sided(blocks, node);
    if (differences === null) continue;
    for (const [power, prior] of POWERS) {
      const { residuals, ...line } = regress(differences.logs, t, w, power);
      const candidate = { power, room: node.celsius, side: differences.side, prior: prior * node.prior, ...line };
      found.push(candidate);
      if (best === null || candidate.sum < best.candidate.sum) best = { candidate, residuals };
    }
  }
  if (best === null) return null;
  const weight = sumOfAll(w);
  const scatter = (best.candidate.sum + BELIEF * BLOCK_ERROR ** 2) / (Math.max(weight - 3, 1) + BELIEF);
  const s2 = Math.max(scatter, FLOOR ** 2);
  const rho = Math.min(CORRELATION.high, Math.max(CORRELATION.low, neighbours(best.residuals, w)));
  const se2 = (s2 * (1 + rho)) / (1 - rho);
  return { at, laws: shared(found, best.candidate.sum, se2), s2, se2 };
};

/** Logarithms of the differences to a room, all on one side of it; `null` where the vessel stands astride. */
const sided = (blocks: readonly Block[], { celsius }: RoomNode): { readonly side: 1 | -1; readonly logs: readonly number[] } | null => {
  const side = (blocks.at(-1)?.celsius ?? celsius) >= celsius ? 1 : -1;
  const logs: number[] = [];
  for (const block of blocks) {
    const u = side * (block.celsius - celsius);
    if (u < LEAST_DIFFERENCE) return null;
    logs.push(Math.log(u));
  }
  return { side, logs };
};

interface Line {
  readonly z: number;
  readonly k: number;
  readonly uu: number;
  readonly uk: number;
  readonly kk: number;
  readonly sum: number;
  readonly residuals: readonly number[];
}

/** z over time, weighted so that residuals count in K. The covariance is for a variance of 1 K² a block. */
const regress = (logs: readonly number[], t: readonly number[], w: readonly number[], n: number): Line => {
  const z = logs.map((log) => straight(log, n));
  const toKelvin = logs.map((log) => Math.exp(n * log));
  let [s, st, stt, sz, stz] = [0, 0, 0, 0, 0];
  for (let i = 0; i < z.length; i += 1) {
    const weight = (w[i] as number) * (toKelvin[i] as number) ** 2;
    const time = t[i] as number;
    const value = z[i] as number;
    s += weight;
    st += weight * time;
    stt += weight * time * time;
    sz += weight * value;
    stz += weight * time * value;
  }
  const det = s * stt - st * st;
  const slope = (s * stz - st * sz) / det;
  // A vessel does not leave its room by itself: then it stands.
  const k = Math.max(0, -slope);
  const level = slope < 0 ? (stt * sz - st * stz) / det : sz / s;
  const residuals = z.map((value, i) => (toKelvin[i] as number) * (value - level + k * (t[i] as number)));
  const sum = residuals.reduce((total, residual, i) => total + (w[i] as number) * residual * residual, 0);
  return { z: level, k, uu: stt / det, uk: st / det, kk: s / det, sum, residuals };
};

/** Correlation of each residual with the one before it. */
const neighbours = (residuals: readonly number[], w: readonly number[]): number => {
  let [both, all] = [0, 0];
  for (let i = 1; i < residuals.length; i += 1) {
    const [now, before, weight] = [residuals[i] as number, residuals[i - 1] as number, w[i] as number];
    both += weight * now * before;
    all += (weight * (now * now + before * before)) / 2;
  }
  return all === 0 ? 0 : both / all;
};

const shared = (found: readonly Candidate[], least: number, se2: number): readonly FittedLaw[] => {
  const weights = found.map(({ prior, sum }) => prior * Math.exp(-(sum - least) / (2 * se2)));
  const most = Math.max(...weights);
  const kept = weights.map((weight) => (weight < NEGLIGIBLE * most ? 0 : weight));
  const total = sumOfAll(kept);
  return found.flatMap(({ power, room, side, z, k, uu, uk, kk }, i) => {
    const share = (kept[i] as number) / total;
    return share === 0 ? [] : [{ share, power, room, side, z, k, uu: se2 * uu, uk: se2 * uk, kk: se2 * kk }];
  });
};
