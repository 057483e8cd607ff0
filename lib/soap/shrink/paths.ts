import { lossOf, lostByDay } from './law';
import { backward, cholesky, forward } from './matrix';
import { normalDeviates } from './generator';
import { lawSeen, roomSeenFrom } from './observed';
import { wanderMatrix } from './wander';
import { LAST_DAY, WINDOW } from './types';
import type { Branch, LotFit, Node } from './fit';

/** Where a wandering room is drawn, days; straight between. A window past the last day, so that the rule can be asked of it. */
const KNOTS = [
  1, 2, 3, 4, 6, 8, 10, 12, 14, 17, 20, 24, 28, 32, 36, 40, 44, 48, 52, 56, 60, 65, 70, 75, 80, 85, 90, 95, 100, 105, 110, 115, 120,
];

interface Drawn {
  readonly branch: Branch;
  /** Row by row: knots by weighings. */
  readonly cross: Float64Array;
  /** Factor of what the weighings leave open at the knots. */
  readonly left: Float64Array;
}

const prepare = (branch: Branch, watch: LotFit['watch']): Drawn => {
  const [k, n] = [KNOTS.length, watch.weighings.length];
  const cross = roomSeenFrom(branch.room, KNOTS, watch);
  const open = wanderMatrix(branch.room, KNOTS);
  const solved = KNOTS.map((_, i) => forward(branch.lower, n, cross.subarray(i * n, (i + 1) * n)));
  for (let i = 0; i < k; i += 1) {
    for (let j = 0; j < k; j += 1) {
      let known = 0;
      for (let a = 0; a < n; a += 1) known += ((solved[i] as Float64Array)[a] as number) * ((solved[j] as Float64Array)[a] as number);
      open[i * k + j] = (open[i * k + j] as number) - known;
    }
    // A weighing on the very day of a knot leaves nothing open there.
    open[i * k + i] = Math.max(open[i * k + i] as number, 0) + 1e-10;
  }
  return { branch, cross, left: cholesky(open, k) };
};

/** The room's share of the loss at every knot, given what the law leaves of the weighings. */
const wanderOf = ({ branch, cross, left }: Drawn, rest: Float64Array, normal: () => number): Float64Array => {
  const [k, n] = [KNOTS.length, rest.length];
  const weights = backward(branch.lower, n, forward(branch.lower, n, rest));
  const [deviates, wander] = [new Float64Array(k), new Float64Array(k)];
  for (let i = 0; i < k; i += 1) {
    deviates[i] = normal();
    let sum = 0;
    for (let a = 0; a < n; a += 1) sum += (cross[i * n + a] as number) * (weights[a] as number);
    for (let j = 0; j <= i; j += 1) sum += (left[i * k + j] as number) * (deviates[j] as number);
    wander[i] = sum;
  }
  return wander;
};

const pick = (nodes: readonly (readonly [Drawn, Node])[], sums: Float64Array, at: number): readonly [Drawn, Node] => {
  let [low, high] = [0, sums.length - 1];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((sums[middle] as number) < at) low = middle + 1;
    else high = middle;
  }
  return nodes[low] as readonly [Drawn, Node];
};

/**
 * Ways a lot may go: each the loss on every whole day from 0 to `LAST_DAY`, drawn from everything the fit leaves open.
 * @param uniform numbers from 0 up to 1; the same ones give the same ways.
 */
export const drawPaths = ({ watch, branches }: LotFit, uniform: () => number, count: number): readonly Float64Array[] => {
  const { water, weighings } = watch;
  const normal = normalDeviates(uniform);
  const nodes = branches.flatMap((branch) => {
    if (branch.nodes.length === 0) return [];
    const drawn = prepare(branch, watch);
    return branch.nodes.map((node) => [drawn, node] as const);
  });
  const sums = new Float64Array(nodes.length);
  let sum = 0;
  for (const [at, [, { weight }]] of nodes.entries()) {
    sum += weight;
    sums[at] = sum;
  }
  return Array.from({ length: count }, () => {
    const [drawn, { u, v, r, rSd }] = pick(nodes, sums, uniform() * sum);
    // No bar takes up water in all, and none loses more than it has.
    const all = Math.min(water, Math.max(0, lossOf(r + rSd * normal(), water)));
    const seen = lawSeen(watch, u, v);
    const rest = Float64Array.from(weighings, ({ loss }, at) => loss - all * (seen[at] as number));
    return lossByDay(all, u, v, wanderOf(drawn, rest, normal));
  });
};

const lossByDay = (all: number, u: number, v: number, wander: Float64Array): Float64Array => {
  const path = lostByDay(LAST_DAY, u, v);
  let at = 0;
  for (let day = 1; day <= LAST_DAY; day += 1) {
    while (at < KNOTS.length - 1 && (KNOTS[at] as number) < day) at += 1;
    const [to, from] = [KNOTS[at] as number, at === 0 ? 0 : (KNOTS[at - 1] as number)];
    const [after, before] = [wander[at] as number, at === 0 ? 0 : (wander[at - 1] as number)];
    path[day] = all * (path[day] as number) + before + ((after - before) * (day - from)) / (to - from);
  }
  return path;
};

/** Loss over the window that ends on a day, per week; `null` before there is a window. */
export const weeklyLoss = (path: ArrayLike<number>, day: number): number | null =>
  day < WINDOW ? null : (((path[day] as number) - (path[day - WINDOW] as number)) * 7) / WINDOW;
