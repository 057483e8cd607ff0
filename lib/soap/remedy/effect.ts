import { waterWithAcid } from '../acid';
import { alkaliSupply, waterWith } from '../alkali';
import { freeAcidOf } from '../fat-portion';
import { M_WATER } from '../molar-mass';
import { perGramOf, type PerGram } from '../poured/per-gram';
import type { PotLine } from '../poured/types';
import { sumOf } from '#lib/units/sum';

/** What one gram of a line does to what a remedy must keep. */
export interface Effect extends PerGram {
  /** Moles of hydroxide that are NaOH. */
  readonly sodium: number;
  /** 1 for a fat of the formula: shares are of these. */
  readonly fat: number;
  /** Grams of the driest bar: all but water, what neutralising acids forms included. Holds while there is alkali for all acids. */
  readonly dry: number;
  /** 1 ÷ limit of a fragrance, 0 for what is none; `null` where nobody typed its limit. */
  readonly strain: number | null;
}

export const effectOf = ({ part, inLye, of, limit }: PotLine): Effect => {
  const per = perGramOf(of, inLye);
  const water = of.water + sumOf(of.alkalis, waterWith) + sumOf(of.acids, waterWithAcid);
  return {
    ...per,
    sodium: alkaliSupply(of.alkalis.filter(({ kind }) => kind === 'NaOH')),
    fat: part === 'fat' ? 1 : 0,
    dry: 1 - water - (per.acid + sumOf(of.fats, freeAcidOf)) * M_WATER,
    strain: part === 'fragrance' ? (limit === null ? null : 1 / limit) : 0,
  };
};
