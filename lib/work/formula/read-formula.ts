import { sumOf } from '#lib/units/sum';
import type { Blend, Entry, Formula, Part } from './formula';
import { classOf, type Found, type Lookup } from './lookup';
import type { Item, ItemAmount, Model } from './model';
import { mayPlay, readAmountOf, type Read } from './read-amount-of';
import { readWhole, SUM_SLACK, type Reading } from './read-whole';
import type { Reader } from './reader';

interface Draft {
  readonly entry: Entry;
  readonly path: string;
  readonly found: Found;
  readonly read: Read;
}

/** The formula as numbers; `null` after noting what is wrong with it, all of it at once. */
export const readFormula = (formula: Formula, lookup: Lookup, reader: Reader, reading: Reading = { card: false }): Model | null => {
  const before = reader.problems.length;
  const unweighed: { entry: string; text: string }[] = [];
  const drafts: Draft[] = [];
  repeated(formula.entries, 'entries', reader);
  repeated(formula.blends, 'blends', reader);
  for (const [at, entry] of formula.entries.entries()) {
    const draft = draftOf(entry, `entries[${at}]`, lookup, reader, unweighed);
    if (draft !== null) drafts.push(draft);
  }
  const wishes = wishesOf(formula, reader);
  const blended = blendsOf(formula, drafts, reader);
  const filled = [...rests(drafts, 'fat', reader), ...rests(drafts, 'alkali', reader), ...rests(drafts, 'liquid', reader)];
  const amounts = new Map<Draft, ItemAmount>();
  for (const draft of drafts) {
    const { read } = draft;
    if (read.kind === 'share' || read.kind === 'mass') amounts.set(draft, read);
  }
  for (const [draft, amount] of [...filled, ...blended]) amounts.set(draft, amount);
  const items = drafts.flatMap((draft): Item[] => {
    const amount = amounts.get(draft);
    return amount === undefined ? [] : [itemOf(draft, amount)];
  });
  const model: Model = { items, wishes, natural: naturalOf(items), unweighed };
  readWhole(formula, model, reader, reading);
  return reader.problems.length > before ? null : model;
};

const repeated = (all: readonly { readonly id: string }[], path: string, reader: Reader): void => {
  const seen = new Set<string>();
  for (const [at, { id }] of all.entries()) {
    if (seen.has(id)) reader.note('twice', `${path}[${at}].id`, { id });
    seen.add(id);
  }
};

const draftOf = (
  entry: Entry,
  path: string,
  lookup: Lookup,
  reader: Reader,
  unweighed: { entry: string; text: string }[],
): Draft | null => {
  if (entry.keep !== null) reader.band(entry.keep, `${path}.keep`, 0, 100);
  const found =
    entry.material === null ? reader.note('missing', `${path}.material`) : lookup.find(entry.material, entry.lot, `${path}.material`);
  const read = readAmountOf(entry.amount, entry.part, found, `${path}.amount`, reader);
  if (read === 'unweighed') {
    if (countsForLye(entry.part, found)) return reader.note('unweighed-counts', `${path}.amount`, { material: found?.name ?? '' });
    unweighed.push({ entry: entry.id, text: entry.amount?.kind === 'unweighed' ? entry.amount.text : '' });
    return null;
  }
  if (found === null || read === null) return null;
  if (!mayPlay(entry, found)) {
    const kind = found.material?.kind ?? 'preparation';
    return reader.note('wrong-part', `${path}.part`, { kind, part: entry.part, material: found.name });
  }
  // What is in the pot, or in the lye, is in all of the batter.
  if (entry.intoPart !== undefined && !waitsForTrace(entry, found))
    return reader.note('unknown-part', `${path}.intoPart`, { material: found.name });
  // Dry hydroxide is weighed into a cup of its own: what is poured out of its bottle onto the scale stands open too long and cakes.
  if (entry.weighed === 'loss' && found.makeup.alkalis.some(({ dissolved }) => !dissolved))
    return reader.note('alkali-by-loss', `${path}.weighed`, { material: found.name });
  return { entry, path, found, read };
};

/** Superfat or lye hang on how much there is of it. What is not chosen yet is asked for anyway. */
export const countsForLye = (part: Part, found: Found | null): boolean => {
  if (part === 'fat' || part === 'alkali' || part === 'acid' || part === 'liquid') return true;
  return found !== null && found.makeup.fats.length + found.makeup.alkalis.length + found.makeup.acids.length > 0;
};

const dissolves = ({ material }: Found): boolean => material?.kind === 'additive' && material.dissolves;

/** It stands in a cup, or is weighed only then. */
const waitsForTrace = ({ goes, part }: Entry, found: Found): boolean =>
  goes === 'trace' || goes === 'aside' || (goes === null && (part === 'fragrance' || (part === 'extra' && !dissolves(found))));

const itemOf = ({ entry, path, found }: Draft, amount: ItemAmount): Item => ({
  entry,
  path,
  part: entry.part,
  class: classOf(found),
  found,
  amount,
  inLye: entry.goes === 'lye' || (entry.goes === null && (entry.part === 'acid' || dissolves(found))),
});

const STRONGEST_SUPERFAT = 90;
const MOST_WATER = 20;

const wishesOf = ({ wishes }: Formula, reader: Reader): Model['wishes'] => {
  const superfat = wishes.superfat === null ? null : reader.within(wishes.superfat, 'wishes.superfat', 0, STRONGEST_SUPERFAT);
  if (wishes.lye === null) return { superfat: superfat === null ? null : superfat / 100, lye: null };
  const value =
    wishes.lye.kind === 'concentration'
      ? reader.percent(wishes.lye.percent, 'wishes.lye.percent', 'above-zero')
      : reader.above(wishes.lye.water, 'wishes.lye.water', MOST_WATER);
  return { superfat: superfat === null ? null : superfat / 100, lye: value === null ? null : { kind: wishes.lye.kind, value } };
};

/** What each fragrance of a blend comes to: the blend's own amount times its share. */
const blendsOf = (formula: Formula, drafts: readonly Draft[], reader: Reader): readonly (readonly [Draft, ItemAmount])[] => {
  const claimed = new Set(formula.blends.flatMap(({ entries }) => entries));
  for (const { entry, path, read } of drafts) {
    if (read.kind === 'blend' && !claimed.has(entry.id)) reader.note('unknown-blend', `${path}.amount.of`);
  }
  return formula.blends.flatMap((blend, at) => blendOf(blend, `blends[${at}]`, drafts, reader));
};

const blendOf = (blend: Blend, path: string, drafts: readonly Draft[], reader: Reader): readonly (readonly [Draft, ItemAmount])[] => {
  const parts = drafts.flatMap((draft) =>
    draft.read.kind === 'blend' && blend.entries.includes(draft.entry.id) ? [{ draft, fraction: draft.read.fraction }] : [],
  );
  if (parts.length === 0) return [];
  const sum = sumOf(parts, ({ fraction }) => fraction);
  if (Math.abs(sum - 1) > SUM_SLACK) reader.note('shares-sum', `${path}.entries`, { sum: 100 * sum, part: 'blend' });
  const [first] = parts;
  const amount = readAmountOf(blend.amount, 'fragrance', first?.draft.found ?? null, `${path}.amount`, reader);
  if (amount === null || amount === 'unweighed') {
    if (amount === 'unweighed') reader.note('missing', `${path}.amount`);
    return [];
  }
  if (amount.kind === 'rest' || amount.kind === 'blend') {
    reader.note('wrong-share', `${path}.amount`, { of: amount.kind, part: 'fragrance' });
    return [];
  }
  return parts.map(({ draft, fraction }) => {
    const share = fraction / sum;
    return [
      draft,
      amount.kind === 'mass' ? { kind: 'mass', grams: amount.grams * share } : { ...amount, fraction: amount.fraction * share },
    ] as const;
  });
};

const OWN_SHARE = { fat: 'fats', alkali: 'hydroxide', liquid: 'liquid' } as const;

/** What is left to 100 % of its part. */
const rests = (drafts: readonly Draft[], part: keyof typeof OWN_SHARE, reader: Reader): readonly (readonly [Draft, ItemAmount])[] => {
  const mine = drafts.filter(({ entry }) => entry.part === part);
  const open = mine.filter(({ read }) => read.kind === 'rest');
  const [rest, second] = open;
  if (rest === undefined) return [];
  if (second !== undefined) {
    reader.note('two-rests', `${second.path}.amount`, { part });
    return [];
  }
  const of = OWN_SHARE[part];
  const taken = sumOf(mine, ({ read }) => (read.kind === 'share' && read.of === of ? read.fraction : 0));
  if (taken >= 1) {
    reader.note('shares-sum', `${rest.path}.amount`, { sum: 100 * taken, part });
    return [];
  }
  return [[rest, { kind: 'share', of, fraction: 1 - taken }]];
};

/** Fats as typed: masses, and the shares that stand beside them; `null` in shares alone. */
const naturalOf = (items: readonly Item[]): number | null => {
  const fats = items.filter(({ part }) => part === 'fat');
  const masses = sumOf(fats, ({ amount }) => (amount.kind === 'mass' ? amount.grams : 0));
  const shares = sumOf(fats, ({ amount }) => (amount.kind === 'share' ? amount.fraction : 0));
  return masses === 0 || shares >= 1 ? null : masses / (1 - shares);
};
