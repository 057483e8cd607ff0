import type { Hydroxide } from '../alkali';
import { above } from '../check';
import { curve, type Point } from '../curve';
import { M_KOH, M_NAOH, M_WATER } from '../molar-mass';
import type { Estimate, Source } from '../source';

/**
 * Integral heat of dissolving one mole of solid NaOH, kJ/mol at 25 °C, by moles of water to each. Older basis (Rossini 1952): its limit
 * is −42.87, not Parker's −44.51; the whole table stands on that basis.
 */
const NAOH: readonly Point[] = [
  [3, -28.87],
  [4, -34.43],
  [5, -37.74],
  [10, -42.51],
  [20, -42.84],
  [30, -42.72],
  [40, -42.59],
  [50, -42.51],
  [100, -42.34],
  [200, -42.26],
  [500, -42.38],
  [1000, -42.47],
  [10_000, -42.72],
];

const FELDER: Source = {
  text: 'Felder & Rousseau, Table B.11, on the Rossini (1952) basis, whose limit is −42.87 kJ/mol; Parker’s newer limit is −44.51',
  grade: 'memory',
};

const PARKER: Source = {
  text: 'CRC Handbook, enthalpy of solution of electrolytes (Parker 1965), infinite dilution; at lye strength less heat comes free',
  grade: 'B',
};

/** kJ/mol at infinite dilution, 25 °C (Parker 1965, grade B). */
const INFINITE_DILUTION: Readonly<Record<Hydroxide, number>> = { NaOH: -44.51, KOH: -57.61 };

/** The two bases differ by 1.64 kJ/mol: half-width, nothing known inside. */
const BASIS = 1.64 / Math.sqrt(3);

const naoh = curve(NAOH);
const MOST = 10_000;

/** Moles of water to each mole of hydroxide. Grams of pure hydroxide and of water. */
export const waterPerHydroxide = (naohMass: number, kohMass: number, water: number): number =>
  above(water, 'the mass of water') / M_WATER / above(naohMass / M_NAOH + kohMass / M_KOH, 'the amount of hydroxide');

/** The heat of solution at infinite dilution, kJ/mol at 25 °C. */
export const limitingHeat = (hydroxide: Hydroxide): Estimate => ({ value: INFINITE_DILUTION[hydroxide], u: 0.3, source: PARKER });

/**
 * Integral heat of solution, kJ per mole of hydroxide at 25 °C (negative: heat comes free), interpolated by the moles of water to each
 * mole of hydroxide. NaOH from 3 (42.5 %) up. For KOH no table by strength is at hand: the limit, which is more than lye gives, stands as
 * an upper bound.
 * @throws RangeError for NaOH stronger than the table.
 */
export const heatOfSolution = (hydroxide: Hydroxide, waterPerHydroxide: number): Estimate => {
  if (!(waterPerHydroxide > 0)) throw new RangeError('hydroxide needs some water to dissolve in');
  if (hydroxide === 'KOH') return { ...limitingHeat('KOH'), u: 3 };
  if (waterPerHydroxide < 3) throw new RangeError('the heat of dissolving NaOH is not known above 42.5 %');
  return { value: naoh(Math.min(waterPerHydroxide, MOST)), u: BASIS, source: FELDER };
};
