import { sumOfAll } from '#lib/units/sum';

/**
 * A remedy as a programme. Masses in grams. What is in a vessel as a mixture leaves it only as a fraction of all of it, and leaves before
 * anything is added, which is never worse than after: final masses are then linear in the fraction kept, though a withdrawal times a
 * concentration is not.
 *
 *   final = own + Σ over mixtures (kept × what it holds)          least ≤ own ≤ most, 1 − mostTaken ≤ kept ≤ 1
 *   minimise Σ |final − reference|                                every limit: Σ coefficient × final ≤ most
 */
export interface Programme {
  readonly quantities: readonly Quantity[];
  readonly mixtures: readonly Mixture[];
  readonly limits: readonly Limit[];
}

/** One line. */
export interface Quantity {
  readonly id: string;
  /** Where it should end: what is in already where it is locked, else the plan. */
  readonly reference: number;
  /** Bounds of what is not part of a mixture. For a line that stands in one: what may be added. */
  readonly least: number;
  readonly most: number;
  readonly weighing: Weighing;
  /** What a gram above and below the reference costs; 1 each if not said. */
  readonly costs?: { readonly up: number; readonly down: number };
}

/**
 * How it can be weighed: left alone its own mass is `stays`; changed it is `from` and so many divisions, fewer or more as the bounds allow.
 * To a line not begun, `from` is 0: its target counts in whole divisions. To what is in, divisions are added or taken out.
 */
export interface Weighing {
  readonly stays: number;
  readonly from: number;
  /** The scale's division; `null`: it cannot be weighed here, and stays as it is. */
  readonly division: number | null;
  /** Smallest weight the scale can serve: what is poured is at least this. */
  readonly smallest: number;
}

/** What stands together in one vessel. */
export interface Mixture {
  readonly id: string;
  /** In the order of the quantities. */
  readonly holds: readonly number[];
  /** Greatest fraction that may leave; 0 where none may. */
  readonly mostTaken: number;
  /** Division of the scale that tells what leaves. */
  readonly division: number | null;
}

/** Σ coefficient × final ≤ most. */
export interface Limit {
  readonly id: string;
  /** In the order of the quantities. */
  readonly coefficients: readonly number[];
  readonly most: number;
  /** Never gives way, not even to say by how much it would have to. */
  readonly safety: boolean;
}

/** Total mass in a mixture. */
export const heldBy = ({ holds }: Mixture): number => sumOfAll(holds);

// Plain loops below: every combination of divisions comes through here.

/** Final masses from what each quantity has of its own and the fraction of each mixture that is kept. */
export const finalOf = ({ quantities, mixtures }: Programme, own: readonly number[], kept: readonly number[]): readonly number[] => {
  const final = own.slice(0, quantities.length);
  for (const [v, { holds }] of mixtures.entries()) {
    const part = kept[v] ?? 1;
    for (let i = 0; i < final.length; i += 1) final[i] = (final[i] ?? 0) + part * (holds[i] ?? 0);
  }
  return final;
};

/** How far a limit is exceeded by some masses; at most 0 when it is kept. */
export const excessOf = ({ coefficients, most }: Limit, final: readonly number[]): number => {
  let sum = -most;
  for (let i = 0; i < coefficients.length; i += 1) sum += (coefficients[i] ?? 0) * (final[i] ?? 0);
  return sum;
};

/** Σ |final − reference|, each at its cost. */
export const changeOf = ({ quantities }: Programme, final: readonly number[]): number =>
  quantities.reduce((sum, { reference, costs }, i) => {
    const off = (final[i] ?? 0) - reference;
    return sum + Math.abs(off) * ((off > 0 ? costs?.up : costs?.down) ?? 1);
  }, 0);

/** Fraction of each mixture that stays when so many grams leave it. */
export const keptOf = ({ mixtures }: Programme, taken: readonly number[]): readonly number[] =>
  mixtures.map((mixture, v) => {
    const held = heldBy(mixture);
    return held === 0 ? 1 : 1 - (taken[v] ?? 0) / held;
  });

/** Of a limit: the last binary digits of the sums, which cross nothing. */
const HAIR = 1e-9;

/** No limit is crossed by these masses. */
export const keeps = ({ limits }: Programme, final: readonly number[]): boolean =>
  limits.every((limit) => excessOf(limit, final) <= HAIR * Math.max(1, Math.abs(limit.most)));
