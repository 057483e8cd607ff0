import { amount } from './check';
import { molarMass } from './molar-mass';
import { sumOf } from '#lib/units/sum';

/** Chain length, double bonds and hydroxyls settle a fatty acid's molar mass. Keys are the usual shorthand; `18:1-OH` is ricinoleic. */
const FATTY_ACIDS = {
  '4:0': { name: 'butyric', carbons: 4, bonds: 0, hydroxyls: 0 },
  '6:0': { name: 'caproic', carbons: 6, bonds: 0, hydroxyls: 0 },
  '8:0': { name: 'caprylic', carbons: 8, bonds: 0, hydroxyls: 0 },
  '10:0': { name: 'capric', carbons: 10, bonds: 0, hydroxyls: 0 },
  '12:0': { name: 'lauric', carbons: 12, bonds: 0, hydroxyls: 0 },
  '14:0': { name: 'myristic', carbons: 14, bonds: 0, hydroxyls: 0 },
  '14:1': { name: 'myristoleic', carbons: 14, bonds: 1, hydroxyls: 0 },
  '16:0': { name: 'palmitic', carbons: 16, bonds: 0, hydroxyls: 0 },
  '16:1': { name: 'palmitoleic', carbons: 16, bonds: 1, hydroxyls: 0 },
  '17:0': { name: 'margaric', carbons: 17, bonds: 0, hydroxyls: 0 },
  '17:1': { name: 'heptadecenoic', carbons: 17, bonds: 1, hydroxyls: 0 },
  '18:0': { name: 'stearic', carbons: 18, bonds: 0, hydroxyls: 0 },
  '18:1': { name: 'oleic', carbons: 18, bonds: 1, hydroxyls: 0 },
  '18:2': { name: 'linoleic', carbons: 18, bonds: 2, hydroxyls: 0 },
  '18:3': { name: 'linolenic', carbons: 18, bonds: 3, hydroxyls: 0 },
  '18:1-OH': { name: 'ricinoleic', carbons: 18, bonds: 1, hydroxyls: 1 },
  '20:0': { name: 'arachidic', carbons: 20, bonds: 0, hydroxyls: 0 },
  '20:1': { name: 'gadoleic', carbons: 20, bonds: 1, hydroxyls: 0 },
  '22:0': { name: 'behenic', carbons: 22, bonds: 0, hydroxyls: 0 },
  '22:1': { name: 'erucic', carbons: 22, bonds: 1, hydroxyls: 0 },
  '22:2': { name: 'docosadienoic', carbons: 22, bonds: 2, hydroxyls: 0 },
  '24:0': { name: 'lignoceric', carbons: 24, bonds: 0, hydroxyls: 0 },
  '24:1': { name: 'nervonic', carbons: 24, bonds: 1, hydroxyls: 0 },
} as const;

export type FattyAcid = keyof typeof FATTY_ACIDS;

/** Shares of total fatty acids by mass; any positive scale, normalised where used. */
export type Profile = Readonly<Partial<Record<FattyAcid, number>>>;

/** What a standard allows of each fatty acid, % of total fatty acids; a typical value alone stands as both ends. */
export type ProfileRange = Readonly<Partial<Record<FattyAcid, readonly [low: number, high: number]>>>;

export const isFattyAcid = (key: string): key is FattyAcid => Object.hasOwn(FATTY_ACIDS, key);

/** "oleic", as a person reads it. */
export const fattyAcidName = (acid: FattyAcid): string => FATTY_ACIDS[acid].name;

export const doubleBonds = (acid: FattyAcid): number => FATTY_ACIDS[acid].bonds;

/** g/mol. CₙH₂ₙO₂, two hydrogens fewer for each double bond, one oxygen more for each hydroxyl. */
export const acidMolarMass = (acid: FattyAcid): number => {
  const { carbons, bonds, hydroxyls } = FATTY_ACIDS[acid];
  return molarMass({ C: carbons, H: 2 * carbons - 2 * bonds, O: 2 + hydroxyls });
};

/** The shares as pairs, checked. @throws RangeError for an unknown acid, a negative share, or a profile of nothing. */
export const sharesOf = (profile: Profile): readonly (readonly [FattyAcid, number])[] => {
  let sum = 0;
  const pairs = Object.entries(profile).map(([acid, share]) => {
    if (!isFattyAcid(acid)) throw new RangeError(`"${acid}" is no fatty acid we know`);
    sum += amount(share, `the share of ${fattyAcidName(acid)} acid`);
    return [acid, share] as const;
  });
  if (!(sum > 0)) throw new RangeError('a fatty-acid profile needs at least one share above zero');
  return pairs;
};

/** The middle of each range, normalised to 100: a stand-in for a profile, not what any one lot holds. */
export const middleProfile = (ranges: ProfileRange): Profile => {
  const middles = sharesOf(Object.fromEntries(Object.entries(ranges).map(([acid, [low, high]]) => [acid, (low + high) / 2])));
  const sum = sumOf(middles, ([, share]) => share);
  return Object.fromEntries(middles.map(([acid, share]) => [acid, (100 * share) / sum]));
};
