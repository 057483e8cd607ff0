import { sumOf } from '#lib/units/sum';
import type { PiecesUsed } from './entries';
import type { BarsState } from './state';

/** Bars that got what they are sold in, and the pieces that took, each lot of each wrap once. */
export interface Wrapped {
  readonly bars: number;
  readonly used: readonly Omit<PiecesUsed, 'name'>[];
}

/** Wrappings that stand, oldest first. */
const standing = ({ wraps }: Pick<BarsState, 'wraps'>): BarsState['wraps'] => wraps.filter(({ struck }) => struck === null);

/** Bars of a lot that got what they are sold in. */
export const barsWrapped = (state: Pick<BarsState, 'wraps'>): number => sumOf(standing(state), ({ bars }) => bars);

/** The same for its row, with the pieces by goods and lot; nothing where nobody has said so. */
export const wrappedOf = (state: BarsState): { readonly wrapped?: Wrapped } => {
  const all = standing(state);
  if (all.length === 0) return {};
  const sums = new Map<string, Wrapped['used'][number]>();
  for (const { goods, lot, pieces } of all.flatMap(({ used }) => used)) {
    const key = JSON.stringify([goods, lot]);
    sums.set(key, { goods, lot, pieces: (sums.get(key)?.pieces ?? 0) + pieces });
  }
  return { wrapped: { bars: barsWrapped(state), used: [...sums.values()] } };
};
