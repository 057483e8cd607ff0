import { sumOf } from '#lib/units/sum';
import type { Model } from './model';
import { problem, type Problem } from './problem';
import { pourable } from '#lib/soap/batter';
import { volumeOf, wanted, type SizeFacts } from './sizing';
import type { Solver } from './solve';
import { wholeOf, type Whole } from './whole';

/** What the batch is made large by. Grams. */
export type SizeWish =
  | { readonly kind: 'fats'; readonly grams: number }
  | { readonly kind: 'batch'; readonly grams: number }
  | { readonly kind: 'bars'; readonly grams: number }
  | { readonly kind: 'moulds' }
  | { readonly kind: 'as-typed' };

export type Sized = { readonly kind: 'sized'; readonly whole: Whole } | { readonly kind: 'problem'; readonly problem: Problem };

const FIRST_GUESS = 1000;
const ROUNDS = 60;
/** Relative, on what is aimed at: beyond the tenth digit nobody weighs. */
const CLOSE = 1e-12;

/** The whole batch at the size wished. @throws RangeError for a volume outside the tables */
export const sized = (model: Model, solver: Solver, wish: SizeWish, facts: SizeFacts): Sized => {
  const at = (fats: number): Sized => {
    const solved = solver.at(fats);
    return solved.kind === 'problem' ? solved : { kind: 'sized', whole: wholeOf(model, solved.grams) };
  };
  if (wish.kind === 'as-typed') return model.natural === null ? failed(problem('no-size', 'size')) : at(model.natural);
  if (wish.kind === 'fats') return at(wish.grams);
  const aim = wish.kind === 'moulds' ? wanted(facts) : wish.grams;
  const reach = reachOf(wish, facts);
  const guess = model.natural ?? FIRST_GUESS;
  const found = search(at, aim, reach, guess);
  // The search's own guesses are nobody's size: what is locked is said instead.
  return found === null || (found.kind === 'problem' && found.problem.code === 'locks-clash') ? failed(lockedOut(model)) : found;
};

const failed = (one: Problem): Sized => ({ kind: 'problem', problem: one });

/** What a batch comes to in the measure it is sized by. */
const reachOf =
  (wish: SizeWish, facts: SizeFacts) =>
  (whole: Whole): number => {
    if (wish.kind === 'moulds') return pourable(volumeOf(whole, facts).value, whole.batter, facts);
    if (wish.kind === 'bars') return (whole.batter - facts.residue) * (1 - facts.pourLoss);
    return whole.batter;
  };

/** Nearly a straight line in the mass of fats, bent only where a lock bites: the secant finds it in a step or two. */
const search = (at: (fats: number) => Sized, aim: number, reach: (whole: Whole) => number, guess: number): Sized | null => {
  let [before, fats] = [guess, guess * 1.1];
  const first = at(before);
  let offBefore = first.kind === 'sized' ? reach(first.whole) - aim : null;
  for (let round = 0; round < ROUNDS; round += 1) {
    const now = at(fats);
    if (now.kind === 'problem') {
      // Locked masses need more fat than the guess: grow until they fit, before any is given up.
      if (offBefore !== null || round > ROUNDS / 2) return now;
      fats *= 2;
      continue;
    }
    const off = reach(now.whole) - aim;
    if (Math.abs(off) <= CLOSE * aim) return now;
    if (offBefore === null) {
      [before, offBefore, fats] = [fats, off, fats * 1.1];
      continue;
    }
    const next = fats - (off * (fats - before)) / (off - offBefore);
    if (!Number.isFinite(next) || next <= 0) return null;
    if (Math.abs(next - fats) <= CLOSE * fats) return now;
    [before, offBefore, fats] = [fats, off, next];
  }
  return null;
};

const lockedOut = ({ items }: Model): Problem =>
  problem('locks-size', 'size', {
    locked: sumOf(items, ({ part, entry, amount }) =>
      part === 'fat' && entry.lock === 'mass' && amount.kind === 'mass' ? amount.grams : 0,
    ),
  });
