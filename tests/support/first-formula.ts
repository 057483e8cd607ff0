import { newEntry } from '#lib/work/formula/index';
import type { Amount, Entry, Formula, Lot, Part, WorkshopVessel } from '#lib/work/formula/index';
import { as } from '#lib/units/id';
import type { VesselId } from '#lib/units/id';
import { grams } from '#lib/units/mass';

const entry = (id: string, part: Part, material: string, amount: Amount): Entry => newEntry(id, part, { material, amount });

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

/** Keeps one document of the shelf of the server at `port`; its new version comes back. Throws what the server answered when it would not. */
export const keep = async (port: number, noun: string, document: { readonly id: string }, expected = 0): Promise<number> => {
  const response = await fetch(`http://127.0.0.1:${port}/api/shelf/${noun}/${document.id}`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ expected, document, note: '' }),
  });
  const text = await response.text();
  if (!response.ok) throw new Error(`${noun} ${document.id}: ${response.status} ${text}`);
  return (JSON.parse(text) as { version: number }).version;
};

/** The plan `prepareFirst` makes ready. */
export const FIRST_PREPARED = 'monday';

/** A workshop with vessels, lots and the first formula, made ready to weigh: what a bench of the real realm can start. */
export const prepareFirst = async (port: number): Promise<void> => {
  for (const vessel of FIRST_VESSELS) await keep(port, 'vessel', vessel);
  for (const lot of [SODA_LOT, lotOf('tallow', 'TA 1'), lotOf('coconut', 'CO 1')]) await keep(port, 'lot', lot);
  await keep(port, 'formula', FIRST_FORMULA);
  const prepared = { id: FIRST_PREPARED, formula: { id: FIRST_FORMULA.id, version: 1 }, size: null, lots: { soda: SODA_LOT.id }, note: '' };
  await keep(port, 'prepared', prepared);
};
