import { sumOf } from '#lib/units/sum';
import { numberOf } from '#lib/work/formula/index';
import type { Amount, Blend, Entry, Formula } from '#lib/work/formula/index';

const shareOf = (amount: Amount | null, of: 'blend' | 'fats'): Amount => ({
  kind: 'share',
  of,
  percent: amount?.kind === 'share' ? amount.percent : '',
});

/** What blends hold, of the same whole: percentages that come to 100, the last making up what rounding took. `null` where they cannot be told. */
const shared = (amounts: readonly (Amount | null)[]): { readonly whole: Amount; readonly of: readonly string[] } | null => {
  const [first] = amounts;
  if (first?.kind !== 'share' || (first.of !== 'fats' && first.of !== 'batter')) return null;
  const { of } = first;
  const each = amounts.map((one) => (one?.kind === 'share' && one.of === of ? numberOf(one.percent) : null));
  if (each.some((one) => one === null || !(one > 0))) return null;
  const whole = sumOf(each, (one) => one ?? 0);
  const before = each.slice(0, -1).map((one) => Math.round((1e6 * (one ?? 0)) / whole) / 1e4);
  const percents = [...before, Math.round(1e4 * (100 - sumOf(before, (one) => one))) / 1e4].map(String);
  return { whole: { kind: 'share', of, percent: String(Math.round(1e9 * whole) / 1e9) }, of: percents };
};

/** All fragrances that are in no blend as one, of as much as they came to together; the same formula when there are not two of them. What was typed as a share stays typed. */
export const withBlend = (formula: Formula, name: string): Formula => {
  const taken = new Set(formula.blends.flatMap(({ entries }) => entries));
  const free = formula.entries.flatMap(({ id, part }) => (part === 'fragrance' && !taken.has(id) ? [id] : []));
  if (free.length < 2) return formula;
  const ids = new Set(formula.blends.map(({ id }) => id));
  let n = 1;
  while (ids.has(`blend-${n}`)) n += 1;
  const together = shared(free.map((id) => formula.entries.find((one) => one.id === id)?.amount ?? null));
  const blend: Blend = { id: `blend-${n}`, name, amount: together?.whole ?? null, entries: free };
  const inBlend = (entry: Entry): Amount => {
    const percent = together?.of[free.indexOf(entry.id)];
    return percent === undefined ? shareOf(entry.amount, 'blend') : { kind: 'share', of: 'blend', percent };
  };
  return {
    ...formula,
    blends: [...formula.blends, blend],
    entries: formula.entries.map((entry) => (free.includes(entry.id) ? { ...entry, amount: inBlend(entry) } : entry)),
  };
};

/** Each of its fragrances for itself again, of as much as it was of the blend where both are known. */
export const withoutBlend = (formula: Formula, blend: Blend): Formula => ({
  ...formula,
  blends: formula.blends.filter(({ id }) => id !== blend.id),
  entries: formula.entries.map((entry) =>
    blend.entries.includes(entry.id) ? { ...entry, amount: alone(entry.amount, blend.amount) } : entry,
  ),
});

const alone = (amount: Amount | null, whole: Amount | null): Amount => {
  if (amount?.kind !== 'share' || whole?.kind !== 'share') return shareOf(amount, 'fats');
  const [part, all] = [numberOf(amount.percent), numberOf(whole.percent)];
  return part === null || all === null
    ? shareOf(amount, 'fats')
    : { kind: 'share', of: whole.of, percent: String(Math.round(1e4 * part * all) / 1e6) };
};

/** As the maker calls it. */
export const withBlendName = (formula: Formula, id: string, name: string): Formula => ({
  ...formula,
  blends: formula.blends.map((blend) => (blend.id === id ? { ...blend, name } : blend)),
});
