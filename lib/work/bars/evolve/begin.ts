import { BrokenHistory } from '../../batch/evolve/index';
import type { BarsEntryOf } from '../entries';
import type { BarsState } from '../state';

/** Bars at their first entry. */
export const begin = (entry: BarsEntryOf<'bars-begun'>): BarsState => {
  if (entry.version !== 1) throw new BrokenHistory(`bars ${entry.batch} begin at version ${entry.version}`);
  return {
    ...entry.body,
    id: entry.batch,
    realm: entry.realm,
    version: 1,
    begunWall: entry.wall,
    unmould: [],
    cut: null,
    label: null,
    trims: [],
    wraps: [],
    weights: [],
    photos: [],
    notes: [],
    place: null,
    held: null,
    moves: [],
    counts: { made: 0, shelf: 0, away: 0, aside: 0, sold: 0, given: 0, spoiled: 0 },
    consumed: { boot: entry.boot, episode: 0 },
  };
};
