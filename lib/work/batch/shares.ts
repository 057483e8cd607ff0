import type { LineId } from '#lib/units/id';
import type { Milligrams } from '#lib/units/mass';
import { mg } from '#lib/units/mass';
import type { Share } from './entries';

const sum = (shares: readonly Share[]): number => shares.reduce((total, { mass }) => total + mass, 0);

/**
 * Divides `mass` of a mixture among its lines in proportion to what each has in it: whole milligrams that add up to `mass`
 * exactly (largest remainders first). Nothing when the mixture is empty; never more of a line than `mixture` has, as long as
 * `mass` is not more than the whole.
 */
export const apportion = (mass: Milligrams, mixture: readonly Share[]): readonly Share[] => {
  const whole = BigInt(sum(mixture));
  if (whole <= 0n) return [];
  const parts = mixture.map(({ line, mass: held }) => {
    const scaled = BigInt(mass) * BigInt(held);
    return { line, floor: Number(scaled / whole), rest: scaled % whole };
  });
  const missing = mass - parts.reduce((total, { floor }) => total + floor, 0);
  const byRest = parts.toSorted((a, b) => (a.rest === b.rest ? 0 : a.rest > b.rest ? -1 : 1));
  const rounded = new Set(byRest.slice(0, missing).map(({ line }) => line));
  return parts.map(({ line, floor }) => ({ line, mass: mg(floor + (rounded.has(line) ? 1 : 0)) })).filter((one) => one.mass !== 0);
};

export const asShares = (holds: Readonly<Record<LineId, Milligrams>>): readonly Share[] =>
  Object.entries(holds)
    .filter(([, mass]) => mass > 0)
    .map(([line, mass]) => ({ line: line as LineId, mass }));

export const totalOf = (shares: readonly Share[]): Milligrams => mg(sum(shares));
