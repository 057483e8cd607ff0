import { fraction, saponificationValue } from './check';
import { acidMolarMass, doubleBonds, sharesOf, type FattyAcid, type Profile } from './fatty-acid';
import { M_GLYCEROL, M_IODINE, M_KOH, M_WATER, naohForKoh } from './molar-mass';

/** Whether the acids are bound to glycerol, three to each, or free. */
export type Bound = 'triglyceride' | 'free-acid';

/** g/mol of the triglyceride of three such acids: three acids and a glycerol less three waters. */
export const triglycerideMolarMass = (meanAcid: number): number => 3 * meanAcid + M_GLYCEROL - 3 * M_WATER;

/** Mean molar mass of a profile's acids in g/mol: the harmonic mean over mass shares, since moles add and masses are given. */
const meanAcidMolarMass = (profile: Profile): number => {
  let mass = 0;
  let moles = 0;
  for (const [acid, share] of sharesOf(profile)) {
    mass += share;
    moles += share / acidMolarMass(acid);
  }
  return mass / moles;
};

/**
 * Theoretical saponification value of a profile, mg KOH/g: three moles of KOH to each mole of triglyceride (AOCS Cd 3a-94, from memory,
 * with unrounded molar masses), one to each of free acid. Unsaponifiables are not in it: see `withUnsaponifiables`.
 */
export const theoreticalSv = (profile: Profile, bound: Bound = 'triglyceride'): number => {
  const acid = meanAcidMolarMass(profile);
  return bound === 'free-acid' ? (1000 * M_KOH) / acid : (3000 * M_KOH) / triglycerideMolarMass(acid);
};

/** SV of a fat that is not all triglyceride: `unsaponifiable`, a mass fraction, takes no alkali. */
export const withUnsaponifiables = (sv: number, unsaponifiable: number): number =>
  saponificationValue(sv) * (1 - fraction(unsaponifiable, 'the unsaponifiable share'));

/** Grams of NaOH that one gram of fat takes, from its saponification value in mg KOH/g. */
export const naohPerGram = (sv: number): number => naohForKoh(saponificationValue(sv)) / 1000;

/** Iodine value per percent of each acid. AOCS Cd 1c-85 (reapproved 2009), calculations 1 and 2, grade B. */
const AOCS: Readonly<Partial<Record<FattyAcid, readonly [triglyceride: number, freeAcid: number]>>> = {
  '16:1': [0.95, 0.9976],
  '18:1': [0.86, 0.8986],
  '18:2': [1.732, 1.81],
  '18:3': [2.616, 2.735],
  '20:1': [0.785, 0.8175],
  '22:1': [0.723, 0.7497],
};

/** The method's own figure where it has one; the same stoichiometry, one I₂ to each double bond, for an acid it does not list. */
const iodinePerPercent = (acid: FattyAcid, bound: Bound): number => {
  const [triglyceride, freeAcid] = AOCS[acid] ?? [stoichiometric(acid, 'triglyceride'), stoichiometric(acid, 'free-acid')];
  return bound === 'free-acid' ? freeAcid : triglyceride;
};

const stoichiometric = (acid: FattyAcid, bound: Bound): number => {
  const molar = acidMolarMass(acid);
  const perAcid = bound === 'free-acid' ? molar : triglycerideMolarMass(molar) / 3;
  return (doubleBonds(acid) * M_IODINE) / perAcid;
};

/** Iodine value of a profile, g I₂ per 100 g (AOCS Cd 1c-85; not for fish oils). */
export const iodineValue = (profile: Profile, bound: Bound = 'triglyceride'): number => {
  let total = 0;
  let sum = 0;
  for (const [acid, share] of sharesOf(profile)) {
    total += share;
    sum += share * iodinePerPercent(acid, bound);
  }
  return (100 * sum) / total;
};
