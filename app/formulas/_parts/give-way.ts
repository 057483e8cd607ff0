import { changeShare } from '#lib/work/formula/index';
import type { Amount, Entry, Formula } from '#lib/work/formula/index';
import { withEntry } from './draft';
import type { Draft } from './draft';

/** Oils are all given in shares, or as what is left: the share of one can make the others give way. */
export const mayGiveWay = ({ entries }: Formula): boolean => {
  const oils = entries.filter(({ part }) => part === 'fat');
  return oils.length > 1 && oils.every(({ amount }) => amount?.kind === 'share' || amount?.kind === 'rest');
};

/**
 * The formula with another share of one oil, the others moved in proportion so that all still come to a hundred; locked ones stay. Reckoned
 * from how they stood before this field was typed into, so that "4" on the way to "45" leaves no trace: not where the field is emptied
 * either, nor where the others have no more to give. `null` where nothing gives way: no share, or the locked ones leave no room.
 */
export const givenWay = (draft: Draft, entry: Entry, amount: Amount | null, field: string): Formula | null => {
  if (entry.part !== 'fat' || (amount !== null && amount.kind !== 'share') || entry.amount?.kind === 'rest') return null;
  const before = draft.past.at(-1);
  const from = before?.field === field && draft.future.length === 0 ? before.formula : draft.formula;
  if (!mayGiveWay(from)) return null;
  const reworked = amount === null ? null : changeShare(from, entry.id, amount.percent);
  if (reworked?.kind === 'formula') return reworked.formula;
  return from === draft.formula ? null : withEntry(from, entry.id, { amount });
};
