import type { Milligrams } from '#lib/units/mass';
import { mg } from '#lib/units/mass';
import type { BatchState, Contribution } from './state';

/** What one weighing came to, put right where somebody did. */
export const trueNet = (one: Pick<Contribution, 'net' | 'amended'>): Milligrams => one.amended ?? one.net;

/**
 * What a batch took of each lot: whatever was poured or typed and not crossed out, less what went back to its bottle, which is of the lot
 * poured last on its line. What stays in a jug, is spilt or thrown away was taken all the same.
 */
export const lotsOf = (state: BatchState): readonly { readonly lot: string; readonly mark: string; readonly mass: Milligrams }[] => {
  const taken = new Map<string, { readonly mark: string; readonly mass: number }>();
  for (const { contributions } of Object.values(state.lines)) {
    let last: Contribution['lot'];
    for (const one of contributions) {
      if (one.struck !== null) continue;
      const poured = one.kind === 'pour' || one.kind === 'typed';
      const lot: Contribution['lot'] = poured ? one.lot : one.toBottle === true ? last : undefined;
      if (lot === undefined) continue;
      if (poured) last = lot;
      taken.set(lot.id, { mark: lot.mark, mass: (taken.get(lot.id)?.mass ?? 0) + trueNet(one) });
    }
  }
  return [...taken].map(([lot, { mark, mass }]) => ({ lot, mark, mass: mg(mass) }));
};
