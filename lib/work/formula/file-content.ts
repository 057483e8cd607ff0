import type { PlanContext } from './context';
import type { FormulaFile } from './file';
import type { Formula } from './formula';

/**
 * Formulas with everything of the maker's own that they ask for: preparations down to what those hold, every lot named by a formula or by
 * a part, the lot's own material, the materials that papers name, and the moulds. What the catalogue has every workshop has.
 */
export const contentOf = (
  formulas: readonly Formula[],
  { materials, preparations, lots, moulds }: PlanContext,
): Omit<FormulaFile, 'format' | 'version'> => {
  const entries = formulas.flatMap((one) => one.entries);
  const ranges = formulas.flatMap(({ references }) => references.flatMap((one) => one.ranges));
  const names = new Set<string>();
  const marks = new Set(entries.map(({ lot }) => lot));
  // A set also goes through what is added on the way, and a preparation that holds itself is gone through once.
  const add = (id: string | null): void => void (id !== null && names.add(id));
  for (const { material } of [...entries, ...ranges]) add(material);
  for (const { id, material } of lots) if (marks.has(id)) add(material);
  for (const id of names)
    for (const { material, lot } of preparations.find((one) => one.id === id)?.parts ?? []) {
      add(material);
      marks.add(lot);
    }
  const used = new Set(formulas.flatMap((one) => one.moulds.map(({ mould }) => mould)));
  return {
    formulas,
    materials: materials.filter(({ id }) => names.has(id)),
    preparations: preparations.filter(({ id }) => names.has(id)),
    lots: lots.filter(({ id }) => marks.has(id)),
    moulds: moulds.filter(({ id }) => used.has(id)),
  };
};
