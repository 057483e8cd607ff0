import { excessOf, finalOf, type Programme } from '#lib/soap/remedy/programme';

/** Σ multiplier × coefficient for every line. */
const pulls = ({ quantities, limits }: Programme, multipliers: readonly number[]): readonly number[] =>
  quantities.map((_, i) => limits.reduce((sum, { coefficients }, r) => sum + (multipliers[r] ?? 0) * (coefficients[i] ?? 0), 0));

/** Least of |own + held − reference| + pull × own between the bounds: at a bound or where the line is at its reference. */
const leastOf = (held: number, reference: number, pull: number, low: number, high: number): number => {
  if (high === Number.POSITIVE_INFINITY && pull < -1 - 1e-12) return Number.NEGATIVE_INFINITY;
  const points = [low, ...(high === Number.POSITIVE_INFINITY ? [] : [high]), Math.min(high, Math.max(low, reference - held))];
  return Math.min(...points.map((own) => Math.abs(own + held - reference) + pull * own));
};

/** The dual's value for a fraction that is kept of every mixture. */
const dualAt = (programme: Programme, pull: readonly number[], kept: number): number =>
  programme.quantities.reduce((sum, { reference, least, most }, i) => {
    const held = programme.mixtures.reduce((all, { holds }) => all + kept * (holds[i] ?? 0), 0);
    return sum + leastOf(held, reference, pull[i] ?? 0, least, most) + (pull[i] ?? 0) * held;
  }, 0);

/** Least of a convex function between two ends, to 1e-12 of the way. */
const leastBetween = (low: number, high: number, value: (at: number) => number): number => {
  let [a, b] = [low, high];
  for (let step = 0; step < 200; step += 1) {
    const [p, q] = [a + (b - a) / 3, b - (b - a) / 3];
    if (value(p) <= value(q)) b = q;
    else a = p;
  }
  return Math.min(value(low), value(high), value((a + b) / 2));
};

/**
 * A lower bound on the change that any masses can do with, from multipliers at least 0, by weak duality and arithmetic alone: the limits
 * are priced, and each line by itself chooses its cheapest mass. At most one mixture.
 */
export const lowerBound = (programme: Programme, multipliers: readonly number[]): number => {
  const pull = pulls(programme, multipliers);
  const fixed = programme.limits.reduce((sum, { most }, r) => sum + (multipliers[r] ?? 0) * most, 0);
  const [mixture] = programme.mixtures;
  const value = (kept: number): number => dualAt(programme, pull, kept);
  return (mixture === undefined ? value(1) : leastBetween(1 - mixture.mostTaken, 1, value)) - fixed;
};

/**
 * Least of Σ weight × (limit's excess) over all bounds: above 0 it proves that no masses keep every limit (Farkas).
 */
export const farkas = ({ quantities, mixtures, limits }: Programme, weights: readonly number[]): number => {
  const pull = pulls({ quantities, mixtures, limits }, weights);
  const lines = quantities.reduce((sum, { least, most }, i) => {
    const by = pull[i] ?? 0;
    if (by >= 0) return sum + by * least;
    return most === Number.POSITIVE_INFINITY ? (by < -1e-9 ? Number.NEGATIVE_INFINITY : sum) : sum + by * most;
  }, 0);
  const mixed = mixtures.reduce((sum, { holds, mostTaken }) => {
    const by = holds.reduce((all, mass, i) => all + mass * (pull[i] ?? 0), 0);
    return sum + Math.min(by, by * (1 - mostTaken));
  }, 0);
  return lines + mixed - limits.reduce((sum, { most }, r) => sum + (weights[r] ?? 0) * most, 0);
};

/** Largest excess of any limit and bound, in grams of the row; at most 0 where all are kept. */
export const worstExcess = (programme: Programme, own: readonly number[], kept: readonly number[]): number => {
  const final = finalOf(programme, own, kept);
  return Math.max(
    ...programme.limits.map((limit) => excessOf(limit, final)),
    ...programme.quantities.map(({ least, most }, i) => Math.max(least - (own[i] ?? 0), (own[i] ?? 0) - most)),
  );
};

/** KKT for lines of which nothing is mixed: what the price of its limits leaves of each line's slope, 0 where all is well. */
export const stationarity = (programme: Programme, own: readonly number[], multipliers: readonly number[]): number => {
  const pull = pulls(programme, multipliers);
  return Math.max(
    ...programme.quantities.map(({ reference, least, most }, i) => {
      const mass = own[i] ?? 0;
      const by = pull[i] ?? 0;
      const [low, high] = mass > reference + 1e-9 ? [1, 1] : mass < reference - 1e-9 ? [-1, -1] : [-1, 1];
      // Slope of the change, a whole range at the reference; a bound may hold against one side.
      const [from, to] = [low + by, high + by];
      if (from > 0) return mass <= least + 1e-9 ? 0 : from;
      if (to < 0) return mass >= most - 1e-9 ? 0 : -to;
      return 0;
    }),
  );
};
