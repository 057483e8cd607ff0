import type { Amount, Blend, Formula } from '#lib/work/formula/index';

const shareOf = (amount: Amount | null, of: 'blend' | 'fats'): Amount => ({
  kind: 'share',
  of,
  percent: amount?.kind === 'share' ? amount.percent : '',
});

/** All fragrances that are in no blend as one; the same formula when there are not two of them. What was typed as a share stays typed. */
export const withBlend = (formula: Formula, name: string): Formula => {
  const taken = new Set(formula.blends.flatMap(({ entries }) => entries));
  const free = formula.entries.flatMap(({ id, part }) => (part === 'fragrance' && !taken.has(id) ? [id] : []));
  if (free.length < 2) return formula;
  const ids = new Set(formula.blends.map(({ id }) => id));
  let n = 1;
  while (ids.has(`blend-${n}`)) n += 1;
  const blend: Blend = { id: `blend-${n}`, name, amount: null, entries: free };
  return {
    ...formula,
    blends: [...formula.blends, blend],
    entries: formula.entries.map((entry) => (free.includes(entry.id) ? { ...entry, amount: shareOf(entry.amount, 'blend') } : entry)),
  };
};

/** Each of its fragrances for itself again. */
export const withoutBlend = (formula: Formula, blend: Blend): Formula => ({
  ...formula,
  blends: formula.blends.filter(({ id }) => id !== blend.id),
  entries: formula.entries.map((entry) => (blend.entries.includes(entry.id) ? { ...entry, amount: shareOf(entry.amount, 'fats') } : entry)),
});

/** As the maker calls it. */
export const withBlendName = (formula: Formula, id: string, name: string): Formula => ({
  ...formula,
  blends: formula.blends.map((blend) => (blend.id === id ? { ...blend, name } : blend)),
});
