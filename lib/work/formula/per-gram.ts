import { perGramOf as ofParts, type PerGram } from '#lib/soap/poured/per-gram';
import type { Item } from './model';

/** Whether it stands in the lye's jug before joining. */
export const inJug = ({ part, entry, inLye }: Item): boolean =>
  part === 'alkali' || inLye || (part === 'liquid' && (entry.goes === null || entry.goes === 'lye'));

export const perGramOf = (item: Item): PerGram => ofParts(item.found.makeup, inJug(item));
