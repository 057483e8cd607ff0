import { acidTake, type AcidPortion } from './acid';
import { alkaliSupply, hydroxide, type AlkaliPortion } from './alkali';
import { fraction, purity } from './check';
import { fatDemand, type FatPortion } from './fat-portion';

/**
 * Everything in moles of hydroxide, so that two alkalis, acids and fats add without conversion factors between them.
 *
 *   superfat = 1 − (pure alkali − acid demand) / fat demand
 *
 * Acid stands apart: counted as a share of the total demand, 20 g of citric acid per kilogram of fat would leave 5.4 % at "5 %".
 */
export interface Charge {
  readonly fats: readonly FatPortion[];
  readonly alkalis: readonly AlkaliPortion[];
  readonly acids: readonly AcidPortion[];
}

/** Moles of hydroxide that the fats of a charge take. @throws RangeError without fat */
const demandOfCharge = (fats: readonly FatPortion[]): number => {
  const demand = fatDemand(fats);
  if (!(demand > 0)) throw new RangeError('superfat needs at least one fat');
  return demand;
};

/** Superfat as a fraction; below zero the soap is lye-heavy. @throws RangeError without fat or for a figure that cannot be one. */
export const superfat = ({ fats, alkalis, acids }: Charge): number => 1 - (alkaliSupply(alkalis) - acidTake(acids)) / demandOfCharge(fats);

/** How the alkali is split. Both purities are asked for only where that alkali is used. */
export interface AlkaliSplit {
  /** Share of the hydroxide, in moles, that is NaOH; the rest is KOH. */
  readonly naohShare: number;
  readonly naohPurity: number;
  readonly kohPurity: number;
}

/** Grams to weigh of each alkali for a wished superfat, the other direction of `superfat`. */
export const alkaliFor = (
  wished: number,
  fats: readonly FatPortion[],
  acids: readonly AcidPortion[],
  split: AlkaliSplit,
): readonly AlkaliPortion[] => {
  if (!(wished < 1 && wished > -1)) throw new RangeError('a superfat lies between −100 and 100 %');
  const share = fraction(split.naohShare, 'the share of NaOH');
  const moles = demandOfCharge(fats) * (1 - wished) + acidTake(acids);
  const portion = (kind: 'NaOH' | 'KOH', part: number, p: number): AlkaliPortion[] =>
    part === 0
      ? []
      : [{ kind, mass: (moles * part * hydroxide(kind).molarMass) / purity(p, `the purity of ${hydroxide(kind).name}`), purity: p }];
  return [...portion('NaOH', share, split.naohPurity), ...portion('KOH', 1 - share, split.kohPurity)];
};

/** Share of the hydroxide, in moles, that is NaOH. @throws RangeError without alkali */
export const naohShare = (alkalis: readonly AlkaliPortion[]): number => {
  const all = alkaliSupply(alkalis);
  if (!(all > 0)) throw new RangeError('a share of NaOH needs some alkali');
  return alkaliSupply(alkalis.filter(({ kind }) => kind === 'NaOH')) / all;
};

/** Change of superfat, as a fraction, for one gram more of each: what a slip of the hand does. */
export interface Sensitivity {
  readonly perGramOfFat: readonly number[];
  readonly perGramOfAlkali: readonly number[];
  readonly perGramOfAcid: readonly number[];
}

/** Partial derivatives of `superfat` by every mass, in the order given. */
export const sensitivity = (charge: Charge): Sensitivity => {
  const demand = demandOfCharge(charge.fats);
  const net = 1 - superfat(charge);
  return {
    perGramOfFat: charge.fats.map((fat) => (net * fatDemand([{ ...fat, mass: 1 }])) / demand),
    perGramOfAlkali: charge.alkalis.map((alkali) => -alkaliSupply([{ ...alkali, mass: 1 }]) / demand),
    perGramOfAcid: charge.acids.map((acid) => acidTake([{ ...acid, mass: 1 }]) / demand),
  };
};
