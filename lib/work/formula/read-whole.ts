import { sumOf } from '#lib/units/sum';
import type { Formula, Part } from './formula';
import type { Item, Model } from './model';
import type { Reader } from './reader';

/** Shares as typed to two decimals may miss 100 by a hundredth or two; the rest is made up in proportion. */
export const SUM_SLACK = 0.0005;

/** What may be left unsaid: a card is read with its lye as it stands, whatever it claims. */
export interface Reading {
  readonly card: boolean;
}

/** What only the whole shows: sums, and who decides lye and water. */
export const readWhole = (formula: Formula, { items, wishes }: Model, reader: Reader, reading: Reading): void => {
  const of = (part: Part): readonly Item[] => items.filter((item) => item.part === part);
  const meant = (part: Part): boolean => formula.entries.some((entry) => entry.part === part);
  const allMass = (part: Part): boolean => of(part).every(({ amount }) => amount.kind === 'mass');
  const [fats, alkalis, liquids] = [of('fat'), of('alkali'), of('liquid')];
  if (!meant('fat')) reader.note('no-fat', 'entries');
  if (!meant('alkali')) reader.note('no-alkali', 'entries');
  sums(formula, items, fats, 'fats', reader);
  sums(formula, items, alkalis, 'hydroxide', reader);
  sums(formula, items, liquids, 'liquid', reader);
  const ownLye = alkalis.length > 0 && allMass('alkali');
  const ownLiquid = liquids.length === 0 || allMass('liquid');
  if (formula.wishes.superfat === null && !ownLye && meant('alkali')) reader.note('superfat-not-said', 'wishes.superfat');
  if (formula.wishes.lye === null && !ownLiquid) reader.note('lye-not-said', 'wishes.lye');
  if (!reading.card) {
    if (wishes.superfat !== null && ownLye) reader.note('said-twice', 'wishes.superfat');
    if (wishes.lye !== null && ownLiquid && liquids.length > 0) reader.note('said-twice', 'wishes.lye');
  }
  if (!reading.card && !meant('liquid') && alkalis.length > 0) withoutLiquid(alkalis, items, wishes, reader);
};

/** The water of a stock lye may be all the liquid there is; then the lye is as strong as the stock, and nothing can be stirred in before. */
const withoutLiquid = (alkalis: readonly Item[], items: readonly Item[], wishes: Model['wishes'], reader: Reader): void => {
  const dry = alkalis.some(({ found }) => found.makeup.alkalis.some(({ dissolved }) => !dissolved));
  if (dry || items.some(({ part, inLye }) => inLye && part !== 'alkali')) reader.note('no-liquid', 'entries');
  else if (wishes.lye !== null) reader.note('stock-lye-strength', 'wishes.lye');
};

/** Shares of a whole come to 100 % unless masses stand beside them and fill it. */
const sums = (
  formula: Formula,
  items: readonly Item[],
  part: readonly Item[],
  of: 'fats' | 'hydroxide' | 'liquid',
  reader: Reader,
): void => {
  const shares = part.filter(({ amount }) => amount.kind === 'share' && amount.of === of);
  if (shares.length === 0) return;
  const sum = sumOf(shares, ({ amount }) => (amount.kind === 'share' ? amount.fraction : 0));
  const beside = part.some(({ amount }) => amount.kind === 'mass');
  // An entry that could not be read is missing from the sum, and has its own problem.
  const lost = formula.entries.some((entry) => entry.part === part[0]?.part && !items.some((item) => item.entry === entry));
  if (lost) return;
  const whole = of === 'fats' && beside ? sum < 1 : beside || Math.abs(sum - 1) <= SUM_SLACK;
  if (!whole) reader.note('shares-sum', 'entries', { sum: 100 * sum, part: of, ...(beside ? { beside: 'weights' } : {}) });
};
