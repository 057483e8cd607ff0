import type { SuperfatFigures } from './answer';
import { balanceOf } from './chemistry';
import type { PlanContext } from './context';
import type { Derivation } from './derivation';
import { alkaliDerivations } from './derive/alkali';
import { factsOf } from './facts';
import { numberOf } from './figure';
import type { Entry, Formula } from './formula';
import { believed } from './interval';
import { lookupOf, type Lookup } from './lookup';
import { problem, type Problem } from './problem';
import { countsForLye, readFormula } from './read-formula';
import { createReader } from './reader';
import { sized } from './size';
import { solverOf } from './solve';

/** What a card as it stands on paper really gives. What is not known is `null`, never a guess. */
export interface CardAnswer {
  /** `null` while an entry that may take or give alkali is unfinished. */
  readonly superfat: SuperfatFigures | null;
  /** What the card says it gives, as a fraction; `null` when it says nothing. */
  readonly claimed: number | null;
  /** `null` without its lye and liquid. */
  readonly lyeConcentration: number | null;
  /** Grams; `null` while not known. */
  readonly fats: number | null;
  readonly batter: number | null;
  /** What is unfinished or wrong; the card keeps it. */
  readonly open: readonly Problem[];
  readonly unweighed: readonly { readonly entry: string; readonly text: string }[];
  readonly derivations: readonly Derivation[];
}

const unknown = (formula: Formula, open: readonly Problem[], unweighed: CardAnswer['unweighed'] = []): CardAnswer => ({
  superfat: null,
  claimed: claimedBy(formula),
  lyeConcentration: null,
  fats: null,
  batter: null,
  open,
  unweighed,
  derivations: [],
});

const claimedBy = ({ wishes }: Formula): number | null => {
  const claimed = wishes.superfat === null ? null : numberOf(wishes.superfat);
  return claimed === null ? null : claimed / 100;
};

/** The superfat a card's own weights give, whatever it claims. Never throws. */
export const copyCard = (formula: Formula, context: PlanContext): CardAnswer => {
  try {
    return copied(formula, context);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return unknown(formula, [problem('not-computable', 'entries', { words: error.message })]);
  }
};

const copied = (formula: Formula, context: PlanContext): CardAnswer => {
  const all = createReader();
  readFormula(formula, lookupOf(context, all), all, { card: true });
  const finished = formula.entries.filter((entry) => isFinished(entry, context));
  const lost = formula.entries.filter((entry) => !finished.includes(entry));
  // What is left can be reckoned; what is missing may only be what neither takes nor gives alkali.
  const rest: Formula = { ...formula, entries: finished };
  const reader = createReader();
  const lookup = lookupOf(context, reader);
  const model = readFormula(rest, lookup, reader, { card: true });
  const facts = factsOf({ ...rest, moulds: [], size: formula.size?.kind === 'moulds' ? null : formula.size }, lookup, reader);
  if (model === null || facts === null) return unknown(formula, all.problems);
  const size = sized(model, solverOf(model), facts.wish, facts.size);
  if (size.kind === 'problem') return unknown(formula, [...all.problems, size.problem], model.unweighed);
  const { whole } = size;
  const balance = balanceOf(model, whole, facts);
  const belief = believed(whole, []);
  const { working, expected, u, low, high, worst, lyeHeavy } = belief.interval;
  const known = lost.every((entry) => isNeutral(entry, lookup));
  const dissolved = whole.jug.alkalis.every((one) => one.dissolved) || model.items.some(({ part }) => part === 'liquid');
  const wet = dissolved && !lost.some(({ part }) => part === 'liquid' || part === 'acid' || part === 'alkali');
  return {
    superfat: known ? { working, expected, u, low, high, worst, lyeHeavy } : null,
    claimed: claimedBy(formula),
    lyeConcentration: known && wet ? balance.concentration : null,
    fats: lost.some(({ part }) => part === 'fat') ? null : whole.fats,
    batter: lost.length > 0 ? null : whole.batter,
    open: all.problems,
    unweighed: model.unweighed,
    derivations: known ? alkaliDerivations({ balance, model, whole, formula }, belief) : [],
  };
};

/** Whether an entry can be read on its own. */
const isFinished = (entry: Entry, context: PlanContext): boolean => {
  const reader = createReader();
  const lookup = lookupOf(context, reader);
  const found = entry.material === null ? null : lookup.find(entry.material, entry.lot, 'material');
  const { amount } = entry;
  if (found === null || amount === null || amount.kind === 'ounces-unclear') return false;
  if (amount.kind === 'unweighed') return !countsForLye(entry.part, found);
  if (amount.kind === 'share') return (numberOf(amount.percent) ?? 0) > 0;
  if (amount.kind === 'mass' || amount.kind === 'volume') return (numberOf(amount.value) ?? 0) > 0;
  return true;
};

/** Neither takes nor gives alkali, whatever its amount: water, clay, fragrance. */
const isNeutral = (entry: Entry, lookup: Lookup): boolean => {
  const found = entry.material === null ? null : lookup.find(entry.material, entry.lot, 'material');
  if (found === null) return entry.part === 'fragrance';
  const { fats, alkalis, acids } = found.makeup;
  return fats.length === 0 && alkalis.length === 0 && acids.length === 0;
};
