import type { Formula } from './formula';

/** One thing that differs between two versions; `null` where it was not there. Values are the documents' own, as JSON. */
export interface Change {
  /** "entries[coconut].amount", "wishes.superfat", "size". */
  readonly path: string;
  readonly before: unknown;
  readonly after: unknown;
}

/** What changed from one version to the next, entries and blends by their id, whatever their place. */
export const changesBetween = (before: Formula, after: Formula): readonly Change[] => [
  ...fields(before, after, ['name', 'note', 'size', 'moulds', 'batterParts', 'temperatures', 'references'] as const, ''),
  ...fields(before.wishes, after.wishes, ['superfat', 'lye'] as const, 'wishes.'),
  ...fields(before.limits, after.limits, ['superfat', 'lye'] as const, 'limits.'),
  ...byId(
    before.entries,
    after.entries,
    ['part', 'material', 'lot', 'amount', 'lock', 'keep', 'goes', 'frozen', 'weighed', 'intoPart'] as const,
    'entries',
  ),
  ...byId(before.blends, after.blends, ['name', 'amount', 'entries'] as const, 'blends'),
];

const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);

const fields = <T extends object>(before: T, after: T, keys: readonly (keyof T & string)[], path: string): readonly Change[] =>
  keys.flatMap((key) => (same(before[key], after[key]) ? [] : [{ path: `${path}${key}`, before: before[key], after: after[key] }]));

const byId = <T extends { readonly id: string }>(
  before: readonly T[],
  after: readonly T[],
  keys: readonly (keyof T & string)[],
  path: string,
): readonly Change[] => {
  const then = new Map(before.map((one) => [one.id, one]));
  const now = new Map(after.map((one) => [one.id, one]));
  const gone = before.filter(({ id }) => !now.has(id)).map((one): Change => ({ path: `${path}[${one.id}]`, before: one, after: null }));
  const rest = after.flatMap((one): readonly Change[] => {
    const old = then.get(one.id);
    if (old === undefined) return [{ path: `${path}[${one.id}]`, before: null, after: one }];
    return fields(old, one, keys, `${path}[${one.id}].`);
  });
  return [...gone, ...rest];
};
