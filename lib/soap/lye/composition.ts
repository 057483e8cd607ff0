import { waterWithAcid, type AcidPortion } from '../acid';
import { pureMass, waterWith, type AlkaliPortion, type Hydroxide } from '../alkali';
import { above, amount, purity } from '../check';
import { checkFractions, partsOf, type LiquidFractions, type LiquidPortion } from '../liquid';
import { sumOf } from '#lib/units/sum';

/** What goes into the lye jug. */
export interface LyeCharge {
  readonly alkalis: readonly AlkaliPortion[];
  readonly liquids: readonly LiquidPortion[];
  /** Acids dissolved in it. */
  readonly acids?: readonly AcidPortion[];
  /** Grams of sugar, salt and the like dissolved in it. */
  readonly dissolved?: number;
}

/** What is in the jug once dissolved, before any acid is neutralised. Grams. */
export interface Lye {
  readonly naoh: number;
  readonly koh: number;
  /** From the liquids, from the alkali's own moisture and from acids sold in solution. */
  readonly water: number;
  /** Sugar, acid, milk solids, impurity: all that is neither hydroxide, water nor fat. */
  readonly other: number;
  /** The whole solution; fat of a milk floats and is not of it. */
  readonly solution: number;
}

export const lyeOf = ({ alkalis, liquids, acids = [], dissolved = 0 }: LyeCharge): Lye => {
  const pure = (kind: Hydroxide): number => sumOf(alkalis, (a) => (a.kind === kind ? pureMass(a) : 0));
  const parts = liquids.map(partsOf);
  const solution =
    sumOf(alkalis, (a) => a.mass) +
    sumOf(parts, ({ water, sugar, other, acid }) => water + sugar + other + (acid?.mass ?? 0)) +
    sumOf(acids, (a) => a.mass) +
    amount(dissolved, 'what is dissolved');
  const water = sumOf(alkalis, waterWith) + sumOf(parts, (p) => p.water) + sumOf(acids, waterWithAcid);
  const [naoh, koh] = [pure('NaOH'), pure('KOH')];
  return { naoh, koh, water, other: solution - naoh - koh - water, solution };
};

/**
 * Lye concentration: pure alkali as a fraction of the whole solution, impurity and the water KOH carries included. What is 33.8 g of
 * 98 % NaOH in 100 g is 33.1 %.
 */
export const lyeConcentration = (lye: Lye): number => (lye.naoh + lye.koh) / above(lye.solution, 'the mass of the lye');

/** Grams of pure hydroxide to each gram of hydroxide and water: what density, heat and solubility tables go by. */
export const lyeStrength = (lye: Lye): { readonly naoh: number; readonly koh: number } => {
  const solution = above(lye.naoh + lye.koh + lye.water, 'the mass of hydroxide and water');
  return { naoh: lye.naoh / solution, koh: lye.koh / solution };
};

/**
 * Grams of one liquid that bring the alkali to a wished concentration; of a milk more is needed, since its fat is not of the solution.
 * `dissolved` is what else is in the jug (acids, sugar, another liquid without its fat).
 * @throws RangeError when the alkali as weighed is weaker than wished already, as a stock solution may be.
 */
export const liquidFor = (wished: number, alkalis: readonly AlkaliPortion[], fractions: LiquidFractions, dissolved = 0): number => {
  purity(wished, 'a lye concentration');
  const pure = sumOf(alkalis, pureMass);
  const present = sumOf(alkalis, (a) => a.mass) + amount(dissolved, 'what is dissolved');
  const missing = pure / wished - present;
  if (missing < -1e-9 * present) throw new RangeError('the alkali as weighed is weaker already than the lye wished for');
  const { fat } = checkFractions(fractions);
  if (fat === 1) throw new RangeError('hydroxide does not dissolve in pure fat');
  return Math.max(0, missing) / (1 - fat);
};
