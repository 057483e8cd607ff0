import { linesCsv, writeFile } from '#lib/work/formula/index';
import type { Formula, Planned, PlanContext } from '#lib/work/formula/index';

const save = (name: string, type: string, text: string): void => {
  const address = URL.createObjectURL(new Blob([text], { type }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  URL.revokeObjectURL(address);
};

const nameOf = ({ name, id }: Formula): string => (name === '' ? id : name.toLowerCase().replaceAll(/[^\p{L}\p{N}]+/gu, '-'));

/** The formula with what of the maker's own it is made of. */
export const saveFormula = (formula: Formula, { materials, preparations, lots, moulds }: PlanContext): void => {
  const named = new Set(formula.entries.map(({ material }) => material));
  const held = preparations.filter(({ id }) => named.has(id));
  for (const { parts } of held) for (const { material } of parts) named.add(material);
  const text = writeFile({
    formulas: [{ ...formula, name: formula.name === '' ? formula.id : formula.name }],
    materials: materials.filter(({ id }) => named.has(id)),
    preparations: held,
    lots: lots.filter(({ id }) => formula.entries.some(({ lot }) => lot === id)),
    moulds: moulds.filter(({ id }) => formula.moulds.some(({ mould }) => mould === id)),
  });
  save(`${nameOf(formula)}.json`, 'application/json', text);
};

export const saveLines = (formula: Formula, plan: Planned): void => save(`${nameOf(formula)}.csv`, 'text/csv', linesCsv(plan));
