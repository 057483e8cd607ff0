import { contentOf, linesCsv, writeFile } from '#lib/work/formula/index';
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
export const saveFormula = (formula: Formula, context: PlanContext): void => {
  const named = { ...formula, name: formula.name === '' ? formula.id : formula.name };
  save(`${nameOf(formula)}.json`, 'application/json', writeFile(contentOf([named], context)));
};

export const saveLines = (formula: Formula, plan: Planned): void => save(`${nameOf(formula)}.csv`, 'text/csv', linesCsv(plan));
