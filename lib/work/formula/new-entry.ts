import type { Entry, Part } from './formula';

/** An entry of which nothing is said but what is given. */
export const newEntry = (id: string, part: Part, given: Partial<Omit<Entry, 'id' | 'part'>> = {}): Entry => ({
  id,
  part,
  material: null,
  lot: null,
  amount: null,
  lock: null,
  keep: null,
  goes: null,
  frozen: false,
  ...given,
});
