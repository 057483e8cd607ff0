import type { FattyAcid } from '#lib/soap/fatty-acid';
import { FATS, type Fat } from '#lib/soap/fats/index';
import { figureFrom, decimal, type Figure } from '../figure';
import type { FatMaterial } from '../material';

const middle = (low: number, high: number): number => (low + high) / 2;

/** Middles as they stand, not made to sum to 100: whoever reckons with them normalises. */
const acidsOf = (fat: Fat): FatMaterial['fattyAcids'] => {
  if (fat.fattyAcids === null) return [];
  const { ranges, source } = fat.fattyAcids;
  return Object.entries(ranges).map(([acid, [low, high]]) => ({
    acid: acid as FattyAcid,
    percent: figureFrom(middle(low, high), '%', source, { low, high }),
  }));
};

const most = (fat: Fat): Figure | null =>
  fat.unsaponifiable === null ? null : figureFrom(100 * fat.unsaponifiable.value, '%', fat.unsaponifiable.source);

/** A fat of `lib/soap` as a catalogue entry. */
const fatMaterial = (fat: Fat): FatMaterial => ({
  kind: fat.kind === 'wax' ? 'wax' : 'fat',
  id: fat.id,
  name: fat.name,
  origin: 'catalogue',
  note: fat.note,
  bound: fat.kind,
  sv: figureFrom(fat.working.value, 'mg KOH/g', fat.sv.source, fat.sv),
  svReason: fat.working.reason,
  iodine: fat.iodine === null ? null : figureFrom(middle(fat.iodine.low, fat.iodine.high), 'g I₂/100 g', fat.iodine.source, fat.iodine),
  unsaponifiable: most(fat),
  acidValue:
    fat.acidValue === null
      ? null
      : figureFrom(middle(fat.acidValue.low, fat.acidValue.high), 'mg KOH/g', fat.acidValue.source, fat.acidValue),
  fattyAcids: acidsOf(fat),
  density: { ...figureFrom(fat.density.value, 'g/cm³', fat.density.source), celsius: decimal(fat.density.celsius) },
  melting: fat.melting === null ? null : figureFrom(middle(fat.melting.low, fat.melting.high), '°C', fat.melting.source, fat.melting),
});

export const FAT_MATERIALS: readonly FatMaterial[] = FATS.map(fatMaterial);
