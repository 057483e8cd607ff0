import { amount, fraction, saponificationValue } from './check';
import { M_KOH } from './molar-mass';
import { sumOf } from '#lib/units/sum';

/**
 * What the fatty part is to lye. A `triglyceride` gives soap and glycerol; a `wax` soap and a fatty alcohol that stays, no glycerol; a
 * `free-acid` soap and water.
 */
export type FatKind = 'triglyceride' | 'wax' | 'free-acid';

/** Fat as weighed; the fat of a milk or of a dispersed colour is one of these too. */
export interface FatPortion {
  /** Grams. */
  readonly mass: number;
  /** Saponification value, mg KOH/g. */
  readonly sv: number;
  /** Else a triglyceride. */
  readonly kind?: FatKind;
  /** Acid value, mg KOH/g: the part of the SV that free acids take. 0 if not said; all of the SV for a free acid. */
  readonly acidValue?: number;
  /** Mass fraction that takes no alkali and stays as it is; for a wax, the alcohol it sets free is part of it. 0 if not said. */
  readonly unsaponifiable?: number;
}

const MOLES_PER_MG_KOH = 1 / (1000 * M_KOH);

/** Moles of hydroxide that this portion takes. */
export const demandOf = ({ mass, sv }: FatPortion): number => amount(mass, 'a mass of fat') * saponificationValue(sv) * MOLES_PER_MG_KOH;

/** Moles of hydroxide that its free acids take. */
export const freeAcidOf = (fat: FatPortion): number => {
  const acidValue = fat.kind === 'free-acid' ? fat.sv : amount(fat.acidValue ?? 0, 'an acid value');
  if (acidValue > fat.sv) throw new RangeError('an acid value is part of the saponification value and cannot exceed it');
  return amount(fat.mass, 'a mass of fat') * acidValue * MOLES_PER_MG_KOH;
};

/** Grams that take no alkali. */
export const unsaponifiableOf = (fat: FatPortion): number => fat.mass * fraction(fat.unsaponifiable ?? 0, 'the unsaponifiable share');

/** Moles of hydroxide that the fats take. */
export const fatDemand = (fats: readonly FatPortion[]): number => sumOf(fats, demandOf);
