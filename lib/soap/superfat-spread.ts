import { chanceBelowZero, type Doubt } from './doubt';
import { sumOf } from '#lib/units/sum';

/** One independent cause of doubt: what one standard deviation of it adds to the demand of the fats and to the net supply, in moles. */
export interface Cause extends Pick<Doubt, 'shape' | 'ends'> {
  readonly demand: number;
  readonly supply: number;
}

/** In moles of hydroxide, each at the mean of what is believed. */
export interface Means {
  /** What the fats take. */
  readonly demand: number;
  /** What the alkalis give beyond what the acids take. */
  readonly net: number;
}

/** Superfat with its doubt, as fractions. */
export interface Spread {
  readonly expected: number;
  /** Standard uncertainty, GUM equation (10). */
  readonly u: number;
  /** 2.5 and 97.5 % of the distribution, leaning triangles and the quotient included: not evenly about `expected` where these lean. */
  readonly low: number;
  readonly high: number;
  /** Every cause at its worst end, all at once. */
  readonly worst: { readonly low: number; readonly high: number };
  /** Chance that some alkali is left over. */
  readonly lyeHeavy: number;
  /** Each cause's part of u², in the order given. */
  readonly shares: readonly number[];
}

const TAIL = 0.025;

export const spreadOf = ({ demand, net }: Means, causes: readonly Cause[]): Spread => {
  const expected = 1 - net / demand;
  // d(superfat) is net/demand² for a mole of demand and −1/demand for a mole of supply.
  const effect = (c: Cause): number => (c.demand * net) / demand ** 2 - c.supply / demand;
  const u2 = sumOf(causes, (c) => effect(c) ** 2);
  const u = Math.sqrt(u2);
  // s < x is demand·(1 − x) less than net: a plain sum, whatever the quotient does.
  const below = (x: number): number =>
    chanceBelowZero(
      (1 - x) * demand - net,
      causes.map(({ demand: d, supply, shape }) => ({ weight: (1 - x) * d - supply, shape })),
    );
  const worstAt = (end: 0 | 1): number => {
    const at = (c: Cause): number => c.ends[effect(c) < 0 ? ((1 - end) as 0 | 1) : end] ?? 0;
    return 1 - (net + sumOf(causes, (c) => at(c) * c.supply)) / (demand + sumOf(causes, (c) => at(c) * c.demand));
  };
  return {
    expected,
    u,
    low: quantile(below, TAIL, expected, u),
    high: quantile(below, 1 - TAIL, expected, u),
    worst: { low: worstAt(0), high: worstAt(1) },
    lyeHeavy: below(0),
    shares: causes.map((c) => (u2 === 0 ? 0 : effect(c) ** 2 / u2)),
  };
};

const CLOSE = 1e-5;

/** Where `below` reaches a chance: false position with the Illinois rule, from four standard deviations either side. */
const quantile = (below: (x: number) => number, chance: number, middle: number, u: number): number => {
  if (u === 0) return middle;
  let [a, b] = [middle - 4 * u, middle + 4 * u];
  let [fa, fb] = [below(a) - chance, below(b) - chance];
  let x = middle;
  for (let round = 0; round < 40 && b - a > CLOSE * u; round += 1) {
    // The chance is far from straight: from the middle of the bracket first, then by false position.
    x = round < 2 ? (a + b) / 2 : (a * fb - b * fa) / (fb - fa);
    const fx = below(x) - chance;
    if (Math.abs(fx) < CLOSE) return x;
    if (fx > 0) [b, fb, fa] = [x, fx, round < 2 ? fa : fa / 2];
    else [a, fa, fb] = [x, fx, round < 2 ? fb : fb / 2];
  }
  return x;
};
