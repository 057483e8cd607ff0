import { middleProfile, type Profile } from '../fatty-acid';
import type { FatPortion } from '../fat-portion';
import { iodineValue } from '../theory';
import { ANIMAL } from './animal';
import { BUTTER } from './butter';
import type { Fat } from './fat';
import { NUT } from './nut';
import { PALM } from './palm';
import { SEED } from './seed';
import { SEED_RECALLED } from './seed-recalled';
import { FREE_ACID, WAX } from './wax';

export type { Fat, WorkingValue } from './fat';

/** Every fat, butter, wax and fatty acid we know by name; a maker's own stand beside them. */
export const FATS: readonly Fat[] = [...PALM, ...NUT, ...SEED, ...SEED_RECALLED, ...BUTTER, ...ANIMAL, ...WAX, ...FREE_ACID];

const BY_ID = new Map(FATS.map((fat) => [fat.id, fat]));

/** @throws RangeError for an id that is not in the catalogue */
export const fatById = (id: string): Fat => {
  const fat = BY_ID.get(id);
  if (fat === undefined) throw new RangeError(`no fat "${id}" in the catalogue`);
  return fat;
};

/** Its usual fatty acids, normalised to 100 %: the middles of what its standard allows. `null` where none are known. */
export const usualProfile = (fat: Fat): Profile | null => (fat.fattyAcids === null ? null : middleProfile(fat.fattyAcids.ranges));

/** Set in a workshop of 20 °C: weighed first, and melted. */
export const isHard = (fat: { readonly melting: { readonly high: number } | null }): boolean =>
  fat.melting !== null && fat.melting.high > 22;

/** Some of a catalogue fat, at its working value. A lot's certificate replaces `sv`. */
export const portionOf = (fat: Fat, mass: number): FatPortion => ({
  mass,
  sv: fat.working.value,
  kind: fat.kind,
  ...(fat.acidValue === null ? {} : { acidValue: (fat.acidValue.low + fat.acidValue.high) / 2 }),
  // A limit is not what is there: half of it, except for a wax, whose alcohol is.
  unsaponifiable: fat.unsaponifiable === null ? 0 : fat.unsaponifiable.value * (fat.kind === 'wax' ? 1 : 0.5),
});

/** Iodine value its usual fatty acids come to; else the middle of its range; `null` where neither is known. */
export const usualIodine = (fat: Fat): number | null => {
  const profile = usualProfile(fat);
  if (profile !== null) return iodineValue(profile, fat.kind === 'free-acid' ? 'free-acid' : 'triglyceride');
  return fat.iodine === null ? null : (fat.iodine.low + fat.iodine.high) / 2;
};
