import type { Json } from '#lib/record/journal';
import type { PersonId } from '#lib/units/id';

/**
 * What the workshop keeps beside its batches, as whole documents with versions: a change is another version, nothing is overwritten,
 * and a batch that names version 3 finds version 3 for ever. Documents hold integers and strings only, because they are hashed lines.
 */
export const NOUNS = [
  'formula',
  'material',
  'preparation',
  'lot',
  'mould',
  'vessel',
  'habits',
  'prepared',
  'fill',
  'probe',
  'order',
  'trade',
  'goods',
  'cutter',
  'cure',
  'unmould',
  'label',
  'complaint',
] as const;
/**
 * `habits`: how this maker works, one document. `prepared`: a formula's version with moulds, lots and size chosen: what the bench starts
 * from. `fill`: how full the moulds of one batch really got. `probe`: what one probe showed in ice and in boiling water.
 * `order`: what is to be there on a day. `trade`: how this workshop makes and sells, one document. `goods`: how something is bought.
 * `cutter`: what cuts a log. `cure`: when bars are ready, one document. `unmould`: how long the logs of one formula stand, by its id.
 * `label`: what this workshop's labels say beside the ingredients, one document.
 * `complaint`: what somebody said was wrong with bars.
 */
export type Noun = (typeof NOUNS)[number];

/** One version of one document. `document` is `null` where it was put away. */
export interface Version {
  /** From 1, without gaps. */
  readonly version: number;
  readonly document: Json;
  /** Why it was changed, in the maker's words; empty when not said. */
  readonly note: string;
  readonly by: PersonId;
  /** Wall time, ms. */
  readonly wall: number;
}

export interface Kept {
  readonly id: string;
  /** Oldest first; never empty. */
  readonly versions: readonly Version[];
}

export type Shelf = { readonly [N in Noun]: ReadonlyMap<string, Kept> };

export const EMPTY_SHELF: Shelf = {
  formula: new Map(),
  material: new Map(),
  preparation: new Map(),
  lot: new Map(),
  mould: new Map(),
  vessel: new Map(),
  habits: new Map(),
  prepared: new Map(),
  fill: new Map(),
  probe: new Map(),
  order: new Map(),
  trade: new Map(),
  goods: new Map(),
  cutter: new Map(),
  cure: new Map(),
  unmould: new Map(),
  label: new Map(),
  complaint: new Map(),
};

/** What a line of the journal says was put. */
export interface Put {
  readonly noun: Noun;
  readonly id: string;
  readonly version: number;
  readonly document: Json;
  readonly note: string;
}

/** The shelf after one put. A line of a noun this program does not know changes nothing. */
export const withPut = (shelf: Shelf, put: Put, by: PersonId, wall: number): Shelf => {
  const { noun, id, version, document, note } = put;
  if (!Object.hasOwn(shelf, noun)) return shelf;
  const before = shelf[noun].get(id)?.versions ?? [];
  const kept: Kept = { id, versions: [...before, { version, document, note, by, wall }] };
  return { ...shelf, [noun]: new Map(shelf[noun]).set(id, kept) };
};

/** The version that stands now; `null` when there is none, or it was put away. */
export const newest = (shelf: Shelf, noun: Noun, id: string): Version | null => {
  const version = shelf[noun].get(id)?.versions.at(-1);
  return version === undefined || version.document === null ? null : version;
};

/** One version by its number, whether it stands or not; `null` when there never was one, or it is the putting away itself. */
export const versionOf = (shelf: Shelf, noun: Noun, id: string, version: number): Version | null => {
  const found = shelf[noun].get(id)?.versions[version - 1];
  return found === undefined || found.document === null ? null : found;
};

/** What stands now, in the order it was first put. */
export const standing = (shelf: Shelf, noun: Noun): readonly { readonly id: string; readonly newest: Version }[] =>
  [...shelf[noun].keys()].flatMap((id) => {
    const version = newest(shelf, noun, id);
    return version === null ? [] : [{ id, newest: version }];
  });

/** What was put away and can be taken out again, newest first: the last version that stood, with the number of its putting away. */
export const putAway = (shelf: Shelf, noun: Noun): readonly { readonly id: string; readonly version: number; readonly last: Version }[] =>
  [...shelf[noun].values()]
    .flatMap(({ id, versions }) => {
      const [gone, last] = [versions.at(-1), versions.findLast(({ document }) => document !== null)];
      return gone === undefined || gone.document !== null || last === undefined
        ? []
        : [{ id, version: gone.version, wall: gone.wall, last }];
    })
    .toSorted((a, b) => b.wall - a.wall)
    .map(({ id, version, last }) => ({ id, version, last }));

/** The number the next version bears; 1 for what was never there. */
export const nextVersion = (shelf: Shelf, noun: Noun, id: string): number => (shelf[noun].get(id)?.versions.length ?? 0) + 1;
