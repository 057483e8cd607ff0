import { acidTake, waterWithAcid, type AcidPortion } from './acid';
import { alkaliSupply, pureMass, waterWith, type AlkaliPortion } from './alkali';
import { amount } from './check';
import { demandOf, freeAcidOf, unsaponifiableOf, type FatPortion } from './fat-portion';
import { M_GLYCEROL, M_WATER } from './molar-mass';
import { sumOf } from '#lib/units/sum';

export interface Batter {
  readonly fats: readonly FatPortion[];
  readonly alkalis: readonly AlkaliPortion[];
  readonly acids: readonly AcidPortion[];
  /** Grams of water from liquids; what alkalis and acids bring is counted from them. */
  readonly water: number;
  /** Grams of all that takes no part: sugar, clay, fragrance, what else a milk holds. */
  readonly inert: number;
}

/** What the batter has become once all that can react has. Grams, before anything dries; they add up to what went in. */
export interface Reacted {
  /** Salts of the fatty acids, without water. */
  readonly soap: number;
  /** The part of it that is sodium soap, by moles. */
  readonly sodiumShare: number;
  readonly glycerol: number;
  /** Citrate, lactate and so on. */
  readonly salts: number;
  /** Fat that found no alkali: the superfat as a mass. */
  readonly freeFat: number;
  readonly unsaponifiable: number;
  /** Hydroxide left over, as weighed out pure; above zero only in a lye-heavy soap. */
  readonly freeAlkali: number;
  /** Water from liquids, alkali and acids, and what neutralisation formed. */
  readonly water: number;
  /** What took no part, impurity of the alkali included. */
  readonly inert: number;
  readonly total: number;
}

/** Grams of glycerol that so many moles of ester bonds set free: one molecule to three. */
export const glycerolFrom = (esterMoles: number): number => (amount(esterMoles, 'moles of ester') * M_GLYCEROL) / 3;

interface Balance {
  readonly saponifiable: number;
  readonly unsaponifiable: number;
  readonly freeAcid: number;
  /** Ester bonds of triglycerides, in moles; those of a wax bind no glycerol. */
  readonly glyceride: number;
  readonly ester: number;
}

const balanceOf = (fats: readonly FatPortion[]): Balance => {
  const balance = { saponifiable: 0, unsaponifiable: 0, freeAcid: 0, glyceride: 0, ester: 0 };
  for (const fat of fats) {
    const freeAcid = freeAcidOf(fat);
    const ester = demandOf(fat) - freeAcid;
    const unsaponifiable = unsaponifiableOf(fat);
    balance.saponifiable += fat.mass - unsaponifiable;
    balance.unsaponifiable += unsaponifiable;
    balance.freeAcid += freeAcid;
    balance.ester += ester;
    if ((fat.kind ?? 'triglyceride') === 'triglyceride') balance.glyceride += ester;
  }
  return balance;
};

/**
 * The batter after the reaction. Added acids take their alkali first, then free fatty acids, then all ester bonds alike: which fat stays
 * as the superfat nobody chooses in cold process.
 */
export const react = (batter: Batter): Reacted => {
  const { saponifiable, unsaponifiable, freeAcid, glyceride, ester } = balanceOf(batter.fats);
  const supply = alkaliSupply(batter.alkalis);
  const pure = sumOf(batter.alkalis, pureMass);
  const massPerMole = supply > 0 ? pure / supply : 0;
  const byAcids = Math.min(supply, acidTake(batter.acids));
  const byFreeAcid = Math.min(supply - byAcids, freeAcid);
  const byEster = Math.min(supply - byAcids - byFreeAcid, ester);
  const done = freeAcid + ester > 0 ? (byFreeAcid + byEster) / (freeAcid + ester) : 0;
  const glycerol = ester > 0 ? glycerolFrom((glyceride * byEster) / ester) : 0;
  const acidMass = sumOf(batter.acids, (a) => a.mass - waterWithAcid(a));
  const formed = (byAcids + byFreeAcid) * M_WATER;
  const brought = sumOf(batter.alkalis, waterWith) + sumOf(batter.acids, waterWithAcid);
  const impurity = sumOf(batter.alkalis, (a) => a.mass - pureMass(a) - waterWith(a));
  const parts = {
    soap: saponifiable * done + (byFreeAcid + byEster) * massPerMole - glycerol - byFreeAcid * M_WATER,
    glycerol,
    salts: acidMass + byAcids * massPerMole - byAcids * M_WATER,
    freeFat: saponifiable * (1 - done),
    unsaponifiable,
    freeAlkali: Math.max(0, supply - byAcids - byFreeAcid - byEster) * massPerMole,
    water: amount(batter.water, 'the mass of water') + brought + formed,
    inert: amount(batter.inert, 'what takes no part') + impurity,
  };
  const total = sumOf(Object.values(parts), (mass) => mass);
  return { ...parts, sodiumShare: supply > 0 ? sodium(batter.alkalis) / supply : 0, total };
};

const sodium = (alkalis: readonly AlkaliPortion[]): number => alkaliSupply(alkalis.filter((a) => a.kind === 'NaOH'));
