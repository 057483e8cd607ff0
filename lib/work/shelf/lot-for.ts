import type { Entry } from '../formula/index';
import type { Prepared } from './documents';

/** The lot a prepared batch takes for an entry: as chosen for it (`null`: at the bench), else as its formula says. */
export const lotFor = (chosen: Prepared['lots'], { id, lot }: Pick<Entry, 'id' | 'lot'>): string | null => {
  const said = chosen[id];
  return said === undefined ? lot : said;
};
