import type { BarsEntry } from '../entries';
import type { Kept } from '../state';

/** Where an entry stands, as it is kept beside what it says. */
export const keptOf = ({ id, wall, offsetMin, by }: BarsEntry): Kept => ({ entry: id, wall, offsetMin, by, struck: null });
