import { above, amount, fraction } from './check';
import { hydroxide, type Hydroxide } from './alkali';
import { molarMass, M_WATER, type Formula } from './molar-mass';
import { sumOf } from '#lib/units/sum';

interface AcidFacts {
  readonly name: string;
  readonly formula: Formula;
  /** How many of its hydrogens lye takes. */
  readonly protons: number;
  /** Molecules of water of crystallisation, which join the lye's water. */
  readonly crystalWater: number;
}

/**
 * Acids a maker adds. Salts such as sodium lactate or sodium citrate are neutral already and take no alkali. Stoichiometry, with the
 * pinned atomic weights; that all three hydrogens of citric acid count in lye is no matter of opinion at pH 13.
 */
const ACIDS = {
  'citric-anhydrous': { name: 'citric acid, anhydrous', formula: { C: 6, H: 8, O: 7 }, protons: 3, crystalWater: 0 },
  'citric-monohydrate': { name: 'citric acid, monohydrate', formula: { C: 6, H: 10, O: 8 }, protons: 3, crystalWater: 1 },
  lactic: { name: 'lactic acid', formula: { C: 3, H: 6, O: 3 }, protons: 1, crystalWater: 0 },
  acetic: { name: 'acetic acid', formula: { C: 2, H: 4, O: 2 }, protons: 1, crystalWater: 0 },
  tartaric: { name: 'tartaric acid', formula: { C: 4, H: 6, O: 6 }, protons: 2, crystalWater: 0 },
  malic: { name: 'malic acid', formula: { C: 4, H: 6, O: 5 }, protons: 2, crystalWater: 0 },
  ascorbic: { name: 'ascorbic acid', formula: { C: 6, H: 8, O: 6 }, protons: 1, crystalWater: 0 },
} as const satisfies Record<string, AcidFacts>;

export type AcidId = keyof typeof ACIDS;

export const ACID_IDS = Object.keys(ACIDS) as AcidId[];

export const acidFacts = (id: AcidId): AcidFacts => ACIDS[id];

/** Acid as weighed. */
export interface AcidPortion {
  /** Grams as weighed, the water of an acid sold in solution included. */
  readonly mass: number;
  /**
   * Mass fraction of acid. For lactic acid: the *total* lactic acid of the label, as its assay counts it. Strong lactic acid holds part
   * of itself as dimers and longer esters; hot lye opens them, so the whole of the stated strength takes alkali. A label that states free
   * acid only understates it.
   */
  readonly strength: number;
  /** Moles of hydroxide that one gram of the acid takes. */
  readonly molesPerGram: number;
  /** Grams of crystal water in one gram of the acid; 0 if not said. */
  readonly crystalWater?: number;
}

/** An acid of the list. `strength` 1 for a dry acid. */
export const acidPortion = (id: AcidId, mass: number, strength = 1): AcidPortion => {
  const { formula, protons, crystalWater } = ACIDS[id];
  const molar = molarMass(formula);
  return { mass, strength, molesPerGram: protons / molar, crystalWater: (crystalWater * M_WATER) / molar };
};

/** Grams of pure alkali that neutralise one gram of the pure acid. */
export const acidDemand = (id: AcidId, alkali: Hydroxide): number =>
  (ACIDS[id].protons * hydroxide(alkali).molarMass) / molarMass(ACIDS[id].formula);

/** Moles of hydroxide that the acids take. */
export const acidTake = (acids: readonly AcidPortion[]): number =>
  sumOf(
    acids,
    ({ mass, strength, molesPerGram }) =>
      amount(mass, 'the mass of an acid') * fraction(strength, 'the strength of an acid') * above(molesPerGram, 'what an acid takes'),
  );

/** Grams of water that came with an acid: what it is dissolved in, and its crystal water. */
export const waterWithAcid = ({ mass, strength, crystalWater = 0 }: AcidPortion): number =>
  amount(mass, 'the mass of an acid') * (1 - strength + strength * fraction(crystalWater, 'crystal water'));
