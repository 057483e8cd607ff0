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

const keyOf = ({ goods, lot }: Pick<PiecesUsed, 'goods' | 'lot'>): string => JSON.stringify([goods, lot]);

/**
 * The same for its row, with the pieces by goods and lot; nothing where nobody has said so. Lots that were named only until somebody crossed
 * that out are told apart: a recall has to look at those bars as well.
 */
export const wrappedOf = (
  state: Pick<BarsState, 'wraps'>,
): { readonly wrapped?: Wrapped; readonly onceWrapped?: readonly Pick<PiecesUsed, 'goods' | 'lot'>[] } => {
  const all = standing(state);
  const sums = new Map<string, Wrapped['used'][number]>();
  for (const { goods, lot, pieces } of all.flatMap(({ used }) => used)) {
    const key = keyOf({ goods, lot });
    sums.set(key, { goods, lot, pieces: (sums.get(key)?.pieces ?? 0) + pieces });
  }
  const crossed = state.wraps.flatMap(({ struck, used }) => (struck === null ? [] : used)).filter((one) => !sums.has(keyOf(one)));
  const once = [...new Map(crossed.map(({ goods, lot }) => [keyOf({ goods, lot }), { goods, lot }])).values()];
  return {
    ...(all.length === 0 ? {} : { wrapped: { bars: barsWrapped(state), used: [...sums.values()] } }),
    ...(once.length === 0 ? {} : { onceWrapped: once }),
  };
};
