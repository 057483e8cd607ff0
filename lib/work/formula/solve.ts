import { hydroxide } from '#lib/soap/alkali';
import { sumOf } from '#lib/units/sum';
import type { Item, Model } from './model';
import type { PerGram } from '#lib/soap/poured/per-gram';
import { perGramOf } from './per-gram';
import { problem, type Problem } from './problem';

/** Unrounded grams of every item, in the model's order; or why there are none. */
export type Solved =
  { readonly kind: 'masses'; readonly grams: readonly number[] } | { readonly kind: 'problem'; readonly problem: Problem };

export interface Solver {
  /** Everything for so many grams of fats. */
  at(fats: number): Solved;
}

const failed = (one: Problem): Solved => ({ kind: 'problem', problem: one });

export const solverOf = (model: Model): Solver => {
  const per = model.items.map(perGramOf);
  return { at: (fats) => solveAt(model, per, fats) };
};

/** Below this of the whole, a negative mass is the last digits of a sum. */
const HAIR = 1e-12;

const isBatterShare = ({ amount }: Item): boolean => amount.kind === 'share' && amount.of === 'batter';
const isOpen = ({ part, amount }: Item, which: 'alkali' | 'liquid'): boolean =>
  part === which && amount.kind === 'share' && amount.of === (which === 'alkali' ? 'hydroxide' : 'liquid');

const solveAt = (model: Model, per: readonly PerGram[], fats: number): Solved => {
  const { items } = model;
  const start = fixedMasses(model, fats);
  if (start.kind === 'problem') return start;
  const grams = [...start.grams];
  const shares = sumOf(items, (item) => (isBatterShare(item) && item.amount.kind === 'share' ? item.amount.fraction : 0));
  if (shares >= 1) return failed(problem('shares-sum', 'entries', { sum: 100 * shares, part: 'batter' }));
  let batter = 0;
  // Shares of the batter may bring fat or water, which moves the lye, which moves the batter: settled by repeating.
  for (let round = 0; round < 100; round += 1) {
    for (const [at, item] of items.entries()) {
      if (isBatterShare(item) && item.amount.kind === 'share') grams[at] = item.amount.fraction * batter;
    }
    const no = lyeOfAll(model, per, grams);
    if (no !== null) return failed(no);
    const rest = sumOf([...items.keys()], (at) => (isBatterShare(items[at] as Item) ? 0 : (grams[at] ?? 0)));
    const whole = rest / (1 - shares);
    const moved = Math.abs(whole - batter);
    batter = whole;
    if (shares === 0 || moved <= 1e-13 * whole) break;
  }
  return { kind: 'masses', grams };
};

/** An oil whose mass stays, whatever the size. */
export const isFixed = ({ part, entry, amount }: Item): boolean => part === 'fat' && entry.lock === 'mass' && amount.kind === 'mass';
/** An oil whose share stays when others are locked. */
export const isHeld = (item: Item): boolean => item.part === 'fat' && item.entry.lock === 'share' && !isFixed(item);

/** Fats by their shares and locks, and all that follows fats or stands as typed. */
const fixedMasses = (model: Model, fats: number): Solved => {
  const { items, natural } = model;
  const weights = items.map(({ part, amount }) => {
    if (part !== 'fat') return 0;
    return amount.kind === 'mass' ? amount.grams : amount.fraction * (natural ?? 1);
  });
  const weight = sumOf(weights, (one) => one);
  const locked = sumOf([...items.entries()], ([at, item]) => {
    if (isFixed(item)) return weights[at] ?? 0;
    return isHeld(item) ? (fats * (weights[at] ?? 0)) / weight : 0;
  });
  const open = sumOf([...items.entries()], ([at, item]) => (isFixed(item) || isHeld(item) ? 0 : (weights[at] ?? 0)));
  const left = fats - locked;
  if (left < -HAIR * fats - (open === 0 ? 1e-9 * fats : 0) || (open === 0 && Math.abs(left) > 1e-9 * fats)) {
    return failed(problem('locks-clash', 'size', { locked, total: fats, unit: 'g' }));
  }
  const times = natural === null ? 1 : fats / natural;
  const grams = items.map((item, at) => {
    const { part, entry, amount } = item;
    if (part === 'fat') {
      if (isFixed(item)) return weights[at] ?? 0;
      if (isHeld(item)) return (fats * (weights[at] ?? 0)) / weight;
      return (Math.max(0, left) * (weights[at] ?? 0)) / open;
    }
    if (amount.kind === 'mass') return amount.grams * (entry.lock === 'mass' ? 1 : times);
    return amount.of === 'fats' ? amount.fraction * fats : 0;
  });
  return { kind: 'masses', grams };
};

/** What all the grams together count for. */
type Sums = PerGram;

const sumsOf = (per: readonly PerGram[], grams: readonly number[], counts: (at: number) => boolean): Sums => {
  const total = (of: (one: PerGram) => number): number =>
    sumOf([...per.entries()], ([at, one]) => (counts(at) ? of(one) * (grams[at] ?? 0) : 0));
  return {
    demand: total((p) => p.demand),
    acid: total((p) => p.acid),
    supply: total((p) => p.supply),
    pure: total((p) => p.pure),
    solution: total((p) => p.solution),
    water: total((p) => p.water),
  };
};

/** Grams of what is neither alkali nor liquid and goes into the lye all the same: salt, sugar, acid. */
const stirredIn = (items: readonly Item[], per: readonly PerGram[], grams: readonly number[]): number =>
  sumOf([...items.entries()], ([at, { part }]) =>
    part === 'alkali' || part === 'liquid' ? 0 : (per[at]?.solution ?? 0) * (grams[at] ?? 0),
  );

/** Fills in alkali and liquid, given everything else. `null` when that worked. */
const lyeOfAll = ({ items, wishes }: Model, per: readonly PerGram[], grams: number[]): Problem | null => {
  const openAlkali = indices(items, 'alkali');
  const openLiquid = indices(items, 'liquid');
  const known = sumsOf(per, grams, (at) => !openAlkali.includes(at) && !openLiquid.includes(at));
  const liquid = mixOf(items, per, openLiquid, () => 1);
  // Shares of hydroxide are by moles: grams to a mole is one over what a gram supplies.
  const alkali = mixOf(items, per, openAlkali, (one) => 1 / one.supply);
  /** Moles still to come from the open alkalis when so much liquid goes in. */
  const molesAt = (mass: number): number => {
    if (openAlkali.length === 0 || wishes.superfat === null) return 0;
    const demand = known.demand + mass * liquid.demand;
    return (1 - wishes.superfat) * demand + known.acid + mass * liquid.acid - known.supply;
  };
  /** Zero where the lye is as wished. Linear in the mass of liquid. */
  const offAt = (mass: number): number => {
    const moles = molesAt(mass);
    const pure = known.pure + moles * alkali.pure;
    if (wishes.lye?.kind === 'ratio') return known.water + mass * liquid.water + moles * alkali.water - wishes.lye.value * pure;
    return (wishes.lye?.value ?? 0) * (known.solution + mass * liquid.solution + moles * alkali.solution) - pure;
  };
  const mass = openLiquid.length === 0 ? 0 : rootOf(offAt, known);
  if (mass === null)
    return problem('lye-too-weak', 'wishes.lye', {
      most: 100 * strongest(known, alkali, molesAt(0)),
      dissolved: stirredIn(items, per, grams),
    });
  const moles = molesAt(mass);
  if (openAlkali.length > 0 && moles < 0) {
    return problem('alkali-too-much', 'entries', { over: -moles * hydroxide('NaOH').molarMass });
  }
  for (const [i, at] of openLiquid.entries()) grams[at] = mass * (liquid.of[i] ?? 0);
  for (const [i, at] of openAlkali.entries()) grams[at] = moles * (alkali.of[i] ?? 0);
  return null;
};

const indices = (items: readonly Item[], which: 'alkali' | 'liquid'): readonly number[] =>
  [...items.entries()].filter(([, item]) => isOpen(item, which)).map(([at]) => at);

interface Mix extends Sums {
  /** Grams of each to one unit of the mix. */
  readonly of: readonly number[];
}

/** One unit (gram, or mole of hydroxide) of all open items of a part by their shares. */
const mixOf = (items: readonly Item[], per: readonly PerGram[], which: readonly number[], perUnit: (one: PerGram) => number): Mix => {
  const fraction = (at: number): number => {
    const amount = items[at]?.amount;
    return amount?.kind === 'share' ? amount.fraction : 0;
  };
  const sum = sumOf(which, fraction);
  const of = which.map((at) => (fraction(at) / sum) * perUnit(per[at] as PerGram));
  const chosen = which.map((at) => per[at] as PerGram);
  return { ...sumsOf(chosen, of, () => true), of };
};

const rootOf = (off: (mass: number) => number, { solution, demand }: Sums): number | null => {
  // Any second point does: it is a straight line. One as large as the batch keeps the digits.
  const step = Math.max(1, solution + demand * 300);
  const [a, b] = [off(0), off(step)];
  const mass = (-a * step) / (b - a);
  if (!Number.isFinite(mass) || mass < -HAIR * step) return null;
  return Math.max(0, mass);
};

const strongest = (known: Sums, alkali: Mix, moles: number): number =>
  (known.pure + moles * alkali.pure) / (known.solution + moles * alkali.solution);
