import type { LineId } from '#lib/units/id';
import type { Milligrams } from '#lib/units/mass';
import { mg } from '#lib/units/mass';
import { sumOfAll } from '#lib/units/sum';
import type { Share } from './entries';

const sum = (shares: readonly Share[]): number => shares.reduce((total, { mass }) => total + mass, 0);

/**
 * Divides whole milligrams in proportion to whole weights: whole milligrams that add up to `mass` exactly (largest remainders first).
 * Nothing to anybody when the weights add up to nothing.
 */
export const divide = (mass: number, weights: readonly number[]): readonly number[] => {
  const whole = BigInt(sumOfAll(weights));
  if (whole <= 0n) return weights.map(() => 0);
  const parts = weights.map((weight, at) => {
    const scaled = BigInt(mass) * BigInt(weight);
    return { at, floor: Number(scaled / whole), rest: scaled % whole };
  });
  const missing = mass - parts.reduce((total, { floor }) => total + floor, 0);
  const byRest = parts.toSorted((a, b) => (a.rest === b.rest ? 0 : a.rest > b.rest ? -1 : 1));
  const rounded = new Set(byRest.slice(0, missing).map(({ at }) => at));
  return parts.map(({ at, floor }) => floor + (rounded.has(at) ? 1 : 0));
};

/**
 * Divides `mass` of a mixture among its lines in proportion to what each has in it: whole milligrams that add up to `mass`
 * exactly. Nothing when the mixture is empty; never more of a line than `mixture` has, as long as `mass` is not more than the whole.
 */
export const apportion = (mass: Milligrams, mixture: readonly Share[]): readonly Share[] => {
  const masses = divide(
    mass,
    mixture.map((one) => one.mass),
  );
  return mixture.map(({ line }, at) => ({ line, mass: mg(masses[at] ?? 0) })).filter((one) => one.mass !== 0);
};
export const asShares = (holds: Readonly<Record<LineId, Milligrams>>): readonly Share[] =>
  Object.entries(holds)
    .filter(([, mass]) => mass > 0)
    .map(([line, mass]) => ({ line: line as LineId, mass }));

export const totalOf = (shares: readonly Share[]): Milligrams => mg(sum(shares));
