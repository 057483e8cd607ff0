import type { Store } from '../store/store';

/**
 * Year and number within it: the eleventh batch of 2026 is "26-11". Never one that stands on a batch already, as it would after the
 * clock was set back a year: a mark on a bar has to say which batch it is of.
 */
export const nextMark = async ({ batches, lots }: Pick<Store, 'batches' | 'lots'>, wall: number): Promise<string> => {
  const year = String(new Date(wall).getFullYear() % 100).padStart(2, '0');
  const newest = (await batches.list({ before: null, limit: 1 })).batches[0];
  const [of, number] = newest?.mark.split('-') ?? [];
  // What was set aside of a batch has its number, and a letter.
  let next = of === year ? (Number.parseInt(number ?? '', 10) || 0) + 1 : 1;
  // Steps that double: each look goes through all batches.
  for (let step = 1; (await lots.marked(`${year}-${next}`)).length > 0; step *= 2) next += step;
  return `${year}-${next}`;
};
