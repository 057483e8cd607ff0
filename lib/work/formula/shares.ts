import { sumOfAll } from '#lib/units/sum';
import type { PlanContext } from './context';
import { decimal, numberOf } from './figure';
import type { Amount, Entry, Formula } from './formula';
import { factsOf } from './facts';
import { lookupOf } from './lookup';
import { problem, type Problem } from './problem';
import { readFormula } from './read-formula';
import { createReader } from './reader';
import { sized } from './size';
import { solverOf } from './solve';

/** The same formula by another measure, or why not. */
export type Reworked =
  { readonly kind: 'formula'; readonly formula: Formula } | { readonly kind: 'problems'; readonly problems: readonly Problem[] };

interface Solved {
  readonly grams: ReadonlyMap<string, number>;
  readonly fats: number;
}

const solved = (formula: Formula, context: PlanContext): Solved | readonly Problem[] => {
  const reader = createReader();
  const lookup = lookupOf(context, reader);
  const model = readFormula(formula, lookup, reader);
  const facts = factsOf(formula, lookup, reader);
  if (model === null || facts === null) return reader.problems;
  const size = sized(model, solverOf(model), facts.wish, facts.size);
  if (size.kind === 'problem') return [size.problem];
  return { grams: new Map(model.items.map(({ entry }, at) => [entry.id, size.whole.grams[at] ?? 0])), fats: size.whole.fats };
};

const isProblems = (one: Solved | readonly Problem[]): one is readonly Problem[] => Array.isArray(one);

/** Whether an entry is reckoned by fats, so that it has a share of them. */
const byFats = ({ part, amount }: Entry): boolean =>
  part !== 'alkali' && part !== 'liquid' && amount !== null && amount.kind !== 'unweighed' && !isBlend(amount);
const isBlend = (amount: Amount): boolean => amount.kind === 'share' && amount.of === 'blend';

const mass = (grams: number): Amount => ({ kind: 'mass', value: decimal(grams), unit: 'g' });
const shareOf = (value: number): Amount => ({ kind: 'share', of: 'fats', percent: decimal(value) });
/** 0 for what is no share, or none that can be read. */
const percentOf = ({ amount }: Entry): number => (amount?.kind === 'share' ? (numberOf(amount.percent) ?? 0) : 0);

/** Shares as grams at the size the formula has; its size is then what it says itself. */
export const sharesToMasses = (formula: Formula, context: PlanContext): Reworked => {
  const all = solvedSafely(formula, context);
  if (isProblems(all)) return { kind: 'problems', problems: all };
  const entries = formula.entries.map((entry) =>
    byFats(entry) ? { ...entry, amount: mass(all.grams.get(entry.id) ?? 0), lock: entry.lock === 'share' ? null : entry.lock } : entry,
  );
  const blends = formula.blends.map((blend) => ({
    ...blend,
    amount: mass(blend.entries.reduce((sum, id) => sum + (all.grams.get(id) ?? 0), 0)),
  }));
  return { kind: 'formula', formula: { ...formula, entries, blends, size: null } };
};

/** Masses as shares of the fats; the size keeps them as heavy as they were. */
export const massesToShares = (formula: Formula, context: PlanContext): Reworked => {
  const all = solvedSafely(formula, context);
  if (isProblems(all)) return { kind: 'problems', problems: all };
  const share = (grams: number): Amount => shareOf((100 * grams) / all.fats);
  const entries = formula.entries.map((entry) =>
    byFats(entry) && entry.lock !== 'mass' ? { ...entry, amount: share(all.grams.get(entry.id) ?? 0) } : entry,
  );
  const blends = formula.blends.map((blend) => ({
    ...blend,
    amount: share(blend.entries.reduce((sum, id) => sum + (all.grams.get(id) ?? 0), 0)),
  }));
  const size = formula.size ?? { kind: 'fats' as const, value: decimal(all.fats), unit: 'g' as const };
  return { kind: 'formula', formula: { ...formula, entries, blends, size } };
};

const solvedSafely = (formula: Formula, context: PlanContext): Solved | readonly Problem[] => {
  try {
    return solved(formula, context);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return [problem('not-computable', 'entries', { words: error.message })];
  }
};

/**
 * A fat's share changed, the others in proportion so that all still come to 100 %. A locked share stays, and so does one that is empty, no
 * number or nothing; a "what is left" takes the whole difference by itself. Only for fats given in shares. Refused where the others would
 * come to nothing: no later share could give them their proportions back.
 */
export const changeShare = (formula: Formula, id: string, percent: string): Reworked => {
  const at = formula.entries.findIndex((entry) => entry.id === id);
  const path = `entries[${at}].amount.percent`;
  const wished = numberOf(percent);
  if (at < 0) return { kind: 'problems', problems: [problem('missing', 'entries')] };
  if (wished === null) return { kind: 'problems', problems: [problem('not-a-number', path, { text: percent })] };
  const clash = (sum: number): Reworked => ({
    kind: 'problems',
    problems: [problem('locks-clash', path, { locked: sum, total: 100, unit: '%' })],
  });
  if (wished <= 0 || wished > 100)
    return { kind: 'problems', problems: [problem('out-of-range', path, { value: wished, low: 0, high: 100 })] };
  const fats = formula.entries.filter(({ part }) => part === 'fat');
  const others = fats.filter((entry) => entry.id !== id);
  const rest = others.some(({ amount }) => amount?.kind === 'rest');
  const moves = (entry: Entry): boolean =>
    !rest && entry.id !== id && entry.part === 'fat' && entry.lock !== 'share' && percentOf(entry) > 0;
  const held = others.filter((entry) => !moves(entry)).reduce((sum, entry) => sum + Math.max(0, percentOf(entry)), 0);
  const open = others.filter(moves).reduce((sum, entry) => sum + percentOf(entry), 0);
  const left = 100 - wished - held;
  if (left < 0 || (open === 0 && left > 0 && !rest)) return clash(held + wished);
  if (left < HAIR && open > 0)
    return { kind: 'problems', problems: [problem('shares-sum', path, { sum: wished + held + open, part: 'fat' })] };
  const entries = formula.entries.map((entry) => {
    if (entry.id === id) return { ...entry, amount: { kind: 'share' as const, of: 'fats' as const, percent } };
    return moves(entry) ? { ...entry, amount: shareOf((left * percentOf(entry)) / open) } : entry;
  });
  return { kind: 'formula', formula: { ...formula, entries: inHundredths(entries, moves, left) } };
};

const HUNDREDTH = 100;

/** What moved as people write shares, two decimals that still come to the same; as it is where one would round to nothing. */
const inHundredths = (entries: readonly Entry[], moves: (entry: Entry) => boolean, left: number): readonly Entry[] => {
  const moved = entries.filter(moves);
  const whole = moved.map((entry) => Math.floor(HUNDREDTH * percentOf(entry) + HAIR));
  const missing = Math.round(HUNDREDTH * left) - sumOfAll(whole);
  if (whole.includes(0) || Math.abs(HUNDREDTH * left - Math.round(HUNDREDTH * left)) > HAIR) return entries;
  const first = new Set(
    moved
      .map((entry, at) => ({ id: entry.id, rest: HUNDREDTH * percentOf(entry) - (whole[at] ?? 0) }))
      .toSorted((a, b) => b.rest - a.rest)
      .slice(0, missing)
      .map(({ id }) => id),
  );
  return entries.map((entry) => {
    const at = moved.indexOf(entry);
    return at === -1 ? entry : { ...entry, amount: shareOf(((whole[at] ?? 0) + (first.has(entry.id) ? 1 : 0)) / HUNDREDTH) };
  });
};

const HAIR = 1e-6;
