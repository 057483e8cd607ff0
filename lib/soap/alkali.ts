import { amount, fraction, purity } from './check';
import { M_KOH, M_NAOH } from './molar-mass';
import type { Source } from './source';
import { sumOf } from '#lib/units/sum';

export type Hydroxide = 'NaOH' | 'KOH';

/** Alkali as weighed: solid of some purity, or a stock solution, whose purity is its strength and whose rest is water. */
export interface AlkaliPortion {
  readonly kind: Hydroxide;
  /** Grams as weighed. */
  readonly mass: number;
  /** Mass fraction of pure hydroxide. */
  readonly purity: number;
  /** How much of what is not hydroxide is water, as a fraction of it; else what is usual for the kind. */
  readonly restIsWater?: number;
}

interface HydroxideFacts {
  readonly name: string;
  readonly molarMass: number;
  /** What is not hydroxide in the solid of commerce: carbonate in NaOH, water in KOH. */
  readonly restIsWater: number;
  /** What a maker will usually read on the sack; asked for, never assumed. */
  readonly usualPurity: { readonly low: number; readonly high: number; readonly source: Source };
}

const FACTS: Readonly<Record<Hydroxide, HydroxideFacts>> = {
  NaOH: {
    name: 'sodium hydroxide',
    molarMass: M_NAOH,
    restIsWater: 0,
    usualPurity: { low: 0.97, high: 0.995, source: { text: 'suppliers’ data sheets', grade: 'memory' } },
  },
  KOH: {
    name: 'potassium hydroxide',
    molarMass: M_KOH,
    restIsWater: 1,
    usualPurity: {
      low: 0.85,
      high: 0.92,
      source: { text: 'suppliers’ data sheets; an encyclopaedia entry gives 90–92 %, the rest held as hydrate', grade: 'memory' },
    },
  },
};

export const hydroxide = (kind: Hydroxide): HydroxideFacts => FACTS[kind];

/** Grams of pure hydroxide in what was weighed. */
export const pureMass = ({ kind, mass, purity: p }: AlkaliPortion): number =>
  amount(mass, `the mass of ${FACTS[kind].name}`) * purity(p, `the purity of ${FACTS[kind].name}`);

/** Moles of hydroxide in what was weighed. */
export const molesOf = (portion: AlkaliPortion): number => pureMass(portion) / FACTS[portion.kind].molarMass;

/** Grams of water that came with the alkali. */
export const waterWith = (portion: AlkaliPortion): number => {
  const rest = portion.mass - pureMass(portion);
  return rest * fraction(portion.restIsWater ?? FACTS[portion.kind].restIsWater, 'the share of water in the rest');
};

/** Moles of hydroxide in several portions. */
export const alkaliSupply = (alkalis: readonly AlkaliPortion[]): number => sumOf(alkalis, molesOf);
