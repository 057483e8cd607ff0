import { isShelfId } from '../words';
import type { Formula } from './formula';
import { problem, type Problem } from './problem';

interface WithId {
  readonly id: string;
}
/** The lists of a file, each of documents the shelf keeps by their ids. */
interface Lists {
  readonly formulas: readonly Formula[];
  readonly materials: readonly WithId[];
  readonly preparations: readonly WithId[];
  readonly lots: readonly WithId[];
  readonly moulds: readonly WithId[];
}
type Found = readonly { readonly list: keyof Lists; readonly at: number; readonly problem: Problem }[];

const BAD_ID = 'An id has 1 to 60 letters without accents, digits, - or _.';

const twice = (all: readonly WithId[], taken: readonly WithId[] = []): readonly { readonly at: number; readonly id: string }[] => {
  const seen = new Set(taken.map(({ id }) => id));
  return all.flatMap(({ id }, at) => {
    const again = seen.has(id);
    seen.add(id);
    return again ? [{ at, id }] : [];
  });
};

const inList = (list: keyof Lists, all: readonly WithId[], taken: readonly WithId[] = []): Found => [
  ...all.flatMap(({ id }, at) => (isShelfId(id) ? [] : [{ list, at, problem: problem('wrong-shape', 'id', { words: BAD_ID }) }])),
  ...twice(all, taken).map(({ at, id }) => ({ list, at, problem: problem('twice', 'id', { id }) })),
];

/**
 * Ids under which the shelf keeps nothing, and two of one id where one would be taken for the other: documents of a kind, a preparation and
 * a material, the entries and the blends of a formula.
 */
export const idsIn = ({ formulas, materials, preparations, lots, moulds }: Lists): Found => [
  ...inList('formulas', formulas),
  ...formulas.flatMap(({ entries, blends, batterParts = [] }, at) =>
    Object.entries({ entries, blends, batterParts }).flatMap(([part, all]) =>
      twice(all).map((one) => ({ list: 'formulas' as const, at, problem: problem('twice', `${part}[${one.at}].id`, { id: one.id }) })),
    ),
  ),
  ...inList('materials', materials),
  ...inList('preparations', preparations, materials),
  ...inList('lots', lots),
  ...inList('moulds', moulds),
];
