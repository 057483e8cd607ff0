import type { Amount, Entry, Formula, Lot, Part, WorkshopVessel } from '#lib/work/formula/index';
import { as } from '#lib/units/id';
import type { VesselId } from '#lib/units/id';
import { grams } from '#lib/units/mass';

const entry = (id: string, part: Part, material: string, amount: Amount): Entry => ({
  id,
  part,
  material,
  lot: null,
  amount,
  lock: null,
  keep: null,
  goes: null,
  frozen: false,
});

/** Olive, tallow and coconut over a kilogram of oils: what a workshop could begin with. */
export const FIRST_FORMULA: Formula = {
  id: 'plain-white',
  name: 'Plain white',
  version: 1,
  note: '',
  entries: [
    entry('tallow', 'fat', 'tallow', { kind: 'share', of: 'fats', percent: '30' }),
    entry('coconut', 'fat', 'coconut', { kind: 'share', of: 'fats', percent: '25' }),
    entry('olive', 'fat', 'olive', { kind: 'rest' }),
    entry('soda', 'alkali', 'sodium-hydroxide', { kind: 'rest' }),
    entry('water', 'liquid', 'water', { kind: 'rest' }),
  ],
  blends: [],
  wishes: { superfat: '6', lye: { kind: 'concentration', percent: '32' } },
  size: { kind: 'fats', value: '1000', unit: 'g' },
  moulds: [],
  limits: { superfat: null, lye: null },
  temperatures: null,
  references: [],
};

/** The bag the hydroxide comes from, with the purity its supplier states; without one nothing is computed. */
export const SODA_LOT: Lot = {
  id: 'soda-26-03',
  mark: 'NaOH 26-03',
  material: 'sodium-hydroxide',
  certificate: { date: '2026-03-02', supplier: 'Harrow Salts', purity: { value: '98.6', u: '0.3' } },
  files: [],
};

export const lotOf = (material: string, mark: string): Lot => ({ id: `${material}-1`, mark, material, certificate: null, files: [] });

const vessel = (
  id: string,
  name: string,
  use: WorkshopVessel['use'],
  material: WorkshopVessel['material'],
  empty: number,
): WorkshopVessel => ({
  id: as<VesselId>(id),
  name,
  use,
  material,
  empty: grams(empty),
  brimMl: 5_000,
  rating: '120',
});

export const FIRST_VESSELS: readonly WorkshopVessel[] = [
  vessel('pot', 'oils pot', 'oils', 'stainless', 1_240),
  vessel('jug', 'lye jug', 'liquid', 'plastic-pp', 318),
  vessel('cup', 'hydroxide cup', 'hydroxide', 'plastic-hdpe', 62),
];
