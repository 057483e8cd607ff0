import { above, amount, fraction } from '../check';
import { lossOf } from './law';
import { cholesky, dot, forward, inverse3, type Three, type ThreeByThree } from './matrix';
import { nextLot, type MakerBelief, type Theta } from './maker';
import { lawSeen, roomSeen } from './observed';
import { ROOMS, type Wander } from './wander';
import type { CureWatch } from './types';

/** One pair of time constant and power, with how likely it is and what stays of the water under it. */
export interface Node {
  readonly weight: number;
  readonly u: number;
  readonly v: number;
  readonly r: number;
  readonly rSd: number;
}

/** The nodes under one kind of room, and the factor of what its residuals have in common. */
export interface Branch {
  readonly room: Wander;
  readonly nodes: readonly Node[];
  readonly lower: Float64Array;
}

export interface LotFit {
  readonly watch: CureWatch;
  readonly branches: readonly Branch[];
  readonly before: Theta;
  readonly after: Theta;
}

/** Repeatability of setting a bar down, grams. A judgement. */
const HANDLING = 0.03;

/** A first coarse look over the belief, then a second where the lot is. Standard deviations to each side. */
const FIRST = [15, 11] as const;
const SECOND = [17, 13] as const;
const REACH = 3;

const checked = (watch: CureWatch): CureWatch => {
  fraction(watch.water, 'the water in a bar');
  above(watch.bars, 'the number of bars weighed');
  above(watch.cutWeight, 'the weight of a bar at cutting');
  above(watch.step, 'the step of the scale');
  let last = amount(watch.from ?? 0, 'the day of the first weighing');
  for (const { day, loss } of watch.weighings) {
    if (!(day > last && Number.isFinite(day))) throw new RangeError('weighings come in order, each some days after the first');
    if (!(loss > -0.2 && loss < 1)) throw new RangeError('a loss is a fraction of the weight at cutting');
    last = day;
  }
  return watch;
};

/** Weighing error: each weighing's own, and that of the weight at cutting in all of them. */
const withNoise = (k: Float64Array, n: number, { step, bars, cutWeight }: CureWatch): Float64Array => {
  const s2 = (step ** 2 / 12 + HANDLING ** 2) / bars / cutWeight ** 2;
  return k.map((value, at) => value + s2 * (at % (n + 1) === 0 ? 2 : 1));
};

/** The belief in r once u and v are given, as a line in them. */
const givenUv = ({ mean, covariance: c }: Theta) => {
  const [uu, uv, vv] = [c[1][1], c[1][2], c[2][2]];
  const det = uu * vv - uv * uv;
  const onU = (c[0][1] * vv - c[0][2] * uv) / det;
  const onV = (c[0][2] * uu - c[0][1] * uv) / det;
  const variance = c[0][0] - onU * c[0][1] - onV * c[0][2];
  return { at: (u: number, v: number) => mean[0] + onU * (u - mean[1]) + onV * (v - mean[2]), variance };
};

interface Plane {
  readonly centre: readonly [number, number];
  /** Lower factor of the covariance of (u, v). */
  readonly lower: readonly [number, number, number];
}

const planeOf = (centre: readonly [number, number], uu: number, uv: number, vv: number): Plane => {
  const a = Math.sqrt(uu);
  const b = uv / a;
  return { centre, lower: [a, b, Math.sqrt(Math.max(vv - b * b, 1e-12))] };
};

interface Weighed extends Omit<Node, 'weight'> {
  readonly log: number;
}

/** Every node of a grid, each with the logarithm of its posterior density. */
const look = (
  watch: CureWatch,
  before: Theta,
  lower: Float64Array,
  plane: Plane,
  [across, along]: readonly [number, number],
): Weighed[] => {
  const { water, weighings } = watch;
  const n = weighings.length;
  const given = givenUv(before);
  const { mean, covariance: c } = before;
  const det = c[1][1] * c[2][2] - c[1][2] ** 2;
  const found: Weighed[] = [];
  const [q, z] = [new Float64Array(n), new Float64Array(n)];
  for (let i = 0; i < across; i += 1) {
    for (let j = 0; j < along; j += 1) {
      const [x, y] = [REACH * ((2 * i) / (across - 1) - 1), REACH * ((2 * j) / (along - 1) - 1)];
      const u = plane.centre[0] + plane.lower[0] * x;
      const v = plane.centre[1] + plane.lower[1] * x + plane.lower[2] * y;
      const [du, dv] = [u - mean[1], v - mean[2]];
      const prior = -0.5 * ((du * du * c[2][2] - 2 * du * dv * c[1][2] + dv * dv * c[1][1]) / det);
      const m = given.at(u, v);
      const seen = lawSeen(watch, u, v);
      for (const [k, { loss }] of weighings.entries()) {
        q[k] = (1 - water) * (seen[k] as number);
        z[k] = lossOf(m, water) * (seen[k] as number) - loss;
      }
      const [lq, lz] = [forward(lower, n, q), forward(lower, n, z)];
      const [qq, qz] = [dot(lq, lq), dot(lq, lz)];
      const gain = given.variance / (1 + given.variance * qq);
      const log = prior - 0.5 * (dot(lz, lz) - gain * qz * qz) - 0.5 * Math.log(1 + given.variance * qq);
      found.push({ u, v, r: m + gain * qz, rSd: Math.sqrt(gain), log });
    }
  }
  return found;
};

interface Moments {
  readonly mean: Three;
  readonly covariance: ThreeByThree;
}

/** Mean and covariance of θ over weighed nodes. */
const momentsOf = (nodes: readonly (Omit<Node, 'weight'> & { readonly weight: number })[]): Moments => {
  let [w, r, u, v] = [0, 0, 0, 0];
  for (const one of nodes) {
    w += one.weight;
    r += one.weight * one.r;
    u += one.weight * one.u;
    v += one.weight * one.v;
  }
  const mean: Three = [r / w, u / w, v / w];
  let [rr, ru, rv, uu, uv, vv] = [0, 0, 0, 0, 0, 0];
  for (const one of nodes) {
    const share = one.weight / w;
    const [dr, du, dv] = [one.r - mean[0], one.u - mean[1], one.v - mean[2]];
    rr += share * (dr * dr + one.rSd ** 2);
    ru += share * dr * du;
    rv += share * dr * dv;
    uu += share * du * du;
    uv += share * du * dv;
    vv += share * dv * dv;
  }
  return {
    mean,
    covariance: [
      [rr, ru, rv],
      [ru, uu, uv],
      [rv, uv, vv],
    ],
  };
};

const weighedBy = (found: readonly Weighed[], most: number): Node[] =>
  found.map(({ log, ...rest }) => ({ ...rest, weight: Math.exp(log - most) }));

/** Nodes less likely than this beside all together are left out of the draws. */
const NEGLIGIBLE = 1e-5;

/**
 * One lot's weighings under a stretched exponential plus a wandering room, with what is believed of its maker. Works without any weighing:
 * then it is the belief itself. @throws RangeError for figures that cannot be
 */
export const fitLot = (given: CureWatch, maker: MakerBelief): LotFit => {
  const watch = checked(given);
  const n = watch.weighings.length;
  const before = nextLot(maker);
  const { mean, covariance: c } = before;
  const rooms = ROOMS.map((room) => {
    const lower = cholesky(withNoise(roomSeen(room, watch), n, watch), n);
    const first = look(watch, before, lower, planeOf([mean[1], mean[2]], c[1][1], c[1][2], c[2][2]), FIRST);
    const rough = momentsOf(weighedBy(first, Math.max(...first.map(({ log }) => log))));
    const plane = planeOf([rough.mean[1], rough.mean[2]], rough.covariance[1][1], rough.covariance[1][2], rough.covariance[2][2]);
    const found = look(watch, before, lower, plane, SECOND);
    const halfLogDet = watch.weighings.reduce((sum, _, i) => sum + Math.log(lower[i * n + i] as number), 0);
    const offset = Math.log(room.prior) - halfLogDet + Math.log(plane.lower[0] * plane.lower[2]);
    return { room, lower, found: found.map((one) => ({ ...one, log: one.log + offset })) };
  });
  const most = Math.max(...rooms.flatMap(({ found }) => found.map(({ log }) => log)));
  const all = rooms.map(({ room, lower, found }) => ({ room, lower, nodes: weighedBy(found, most) }));
  const total = all.reduce((sum, { nodes }) => sum + nodes.reduce((own, { weight }) => own + weight, 0), 0);
  const branches = all.map(({ nodes, ...rest }) => ({
    ...rest,
    nodes: nodes.map((node) => ({ ...node, weight: node.weight / total })).filter(({ weight }) => weight > NEGLIGIBLE),
  }));
  return { watch, branches, before, after: momentsOf(branches.flatMap(({ nodes }) => nodes)) };
};

/** Whether a belief can still be believed after many lots: rounding must not turn a variance around. */
export const isSound = ({ between }: MakerBelief): boolean => {
  try {
    return inverse3(between).flat().every(Number.isFinite);
  } catch (error) {
    if (error instanceof RangeError) return false;
    throw error;
  }
};
