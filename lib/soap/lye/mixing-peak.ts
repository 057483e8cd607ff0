import { amount, within } from '../check';
import { M_KOH, M_NAOH } from '../molar-mass';
import type { Estimate, Source } from '../source';
import { lyeHeatCapacity, waterHeatCapacity } from './heat-capacity';
import { heatOfSolution, waterPerHydroxide } from './heat-of-solution';

/** What meets in the jug. Grams. Sugar, milk solids and the like are left out: what they take up would only lower the peak. */
export interface Mixing {
  readonly naoh: number;
  readonly koh: number;
  readonly water: number;
  /** Of that water, how much goes in as ice. */
  readonly frozen?: number;
  /** Moles of acid hydrogen that the lye neutralises. */
  readonly acid?: number;
}

/** J/g, melting of ice at 0 °C (from memory). */
const MELTING = 333.55;
/** kJ/mol, strong base on acid (from memory); the acids of the list give a little less. */
const NEUTRALISATION = 55.8;
/** J/(mol K) at 25 °C, crystalline, CRC Handbook thermodynamic tables, grade B. */
const SOLID = { NaOH: 59.5, KOH: 68.9 } as const;
/** The temperature the heats of solution are given for; the lye's heat capacity is taken there too, which tends to raise the peak. */
const BASIS = 25;

const SOURCE: Source = {
  text: 'adiabatic heat balance: heats of solution (Felder & Rousseau B.11, from memory; KOH: Parker’s limit) over Laliberté’s heat capacity',
  grade: 'computed',
};

/** The heat balance of a jug with nothing lost, J and J/(g K). */
export interface MixingHeat {
  /** Heats of solution, kJ/mol; 0 where there is none of it. */
  readonly soda: number;
  readonly potash: number;
  /** What dissolving and neutralising set free. */
  readonly released: number;
  /** Of that, what the acid brings. */
  readonly byAcid: number;
  /** What warming to 25 °C and melting ice take up. */
  readonly cold: number;
  readonly solution: number;
  readonly capacity: number;
  /** Standard uncertainties, K. */
  readonly u: { readonly heat: number; readonly capacity: number };
}

/** @throws RangeError for lye stronger than the tables */
export const mixingHeat = (mixing: Mixing, celsius: number): MixingHeat => {
  const { naoh, koh, water, frozen = 0, acid = 0 } = mixing;
  within(celsius, 0, 60, 'the start, in °C,');
  const moles = { NaOH: amount(naoh, 'a mass of NaOH') / M_NAOH, KOH: amount(koh, 'a mass of KOH') / M_KOH };
  if (amount(frozen, 'the mass of ice') > water) throw new RangeError('there cannot be more ice than water');
  const solution = naoh + koh + water;
  // Each hydroxide is taken to meet its share of the water, by moles.
  const ratio = waterPerHydroxide(naoh, koh, water);
  const soda = moles.NaOH > 0 ? heatOfSolution('NaOH', ratio) : { value: 0, u: 0 };
  const potash = moles.KOH > 0 ? heatOfSolution('KOH', ratio) : { value: 0, u: 0 };
  const byAcid = 1000 * NEUTRALISATION * amount(acid, 'the acid');
  const released = -1000 * (moles.NaOH * soda.value + moles.KOH * potash.value) + byAcid;
  const solids = moles.NaOH * SOLID.NaOH + moles.KOH * SOLID.KOH;
  const cold =
    (solids + (water - frozen) * waterHeatCapacity(BASIS)) * (BASIS - celsius) + frozen * (MELTING + waterHeatCapacity(BASIS) * BASIS);
  const capacity = lyeHeatCapacity({ naoh: naoh / solution, koh: koh / solution }, BASIS);
  const rise = (released - cold) / (solution * capacity.value);
  const heat = (1000 * (moles.NaOH * soda.u + moles.KOH * potash.u)) / (solution * capacity.value);
  const u = { heat, capacity: (rise * capacity.u) / capacity.value };
  return { soda: soda.value, potash: potash.value, released, byAcid, cold, solution, capacity: capacity.value, u };
};

/**
 * The temperature lye would reach if no heat left the jug, °C: an upper bound. Hydroxide and liquid start at `celsius`, ice at 0 °C.
 * Above the boiling point it says only that the lye would boil.
 * @throws RangeError for lye stronger than the tables: a peak that is not known is no number.
 */
export const mixingPeak = (mixing: Mixing, celsius: number): Estimate => {
  const { released, cold, solution, capacity, u } = mixingHeat(mixing, celsius);
  return { value: BASIS + (released - cold) / (solution * capacity), u: Math.hypot(u.heat, u.capacity), source: SOURCE };
};
