import { as, type VesselId } from '#lib/units/id';
import { grams, mg } from '#lib/units/mass';
import { CATALOGUE } from '../catalogue/index';
import type { PlanContext, Scale, WorkshopVessel } from '../context';
import { typed } from '../figure';
import type { Certificate, Lot } from '../lot';
import type { FragranceMaterial } from '../material';
import type { Mould } from '../mould';

/** The invented workshop: what stands on its shelves. Its lots are those of the typed sample plans. */
const scent = (id: string, name: string, vanillin: string): FragranceMaterial => ({
  kind: 'fragrance',
  id,
  name,
  origin: 'maker',
  note: null,
  density: typed('0.97', 'g/cm³'),
  vanillin: typed(vanillin, '%'),
});

const certificate = (date: string, more: Omit<Certificate, 'date' | 'supplier'>): Certificate => ({
  date,
  supplier: 'Fellside Supplies',
  ...more,
});

const lot = (id: string, mark: string, material: string, certified: Certificate | null = null): Lot => ({
  id: `lot-${id}`,
  mark,
  material,
  certificate: certified,
  files: [],
});

const SODA = certificate('2026-02-12', { purity: { value: '99', u: '0.2' } });

const LOTS: readonly Lot[] = [
  lot('coconut-07', 'CO 26-07', 'coconut'),
  lot('coconut-09', 'CO 26-09', 'coconut', certificate('2026-03-02', { sv: { value: '256' } })),
  lot('shea-02', 'SB 26-02', 'shea'),
  lot('olive-11', 'OL 25-11', 'olive'),
  lot('olive-12', 'OL 26-01', 'olive'),
  lot('rapeseed-04', 'RA 26-04', 'rapeseed'),
  lot('sunflower-03', 'SF 26-03', 'sunflower-high-oleic'),
  lot('castor-01', 'CA 26-01', 'castor'),
  lot(
    'alder-03',
    'AW 26-03',
    'alder-wood-scent',
    certificate('2026-01-20', {
      limit: '4.2',
      allergens: [
        { name: 'Linalool', percent: '1.5' },
        { name: 'Eugenol', percent: '0.2' },
      ],
    }),
  ),
  lot('meadowsweet-02', 'MS 26-02', 'meadowsweet-scent'),
  lot('oat-05', 'GO 26-05', 'ground-oats'),
  lot('clay-01', 'GC 25-01', 'green-clay'),
  lot('charcoal-02', 'CH 25-02', 'charcoal-powder'),
  lot('water-31', 'DW 26-31', 'water'),
  lot('soda-06', 'SH 26-06', 'sodium-hydroxide', SODA),
];

const vessel = (
  id: string,
  name: string,
  use: WorkshopVessel['use'],
  material: WorkshopVessel['material'],
  empty: number | null,
  brimMl: number,
  rating: string | null = null,
): WorkshopVessel => ({ id: as<VesselId>(id), name, use, material, empty: empty === null ? null : grams(empty), brimMl, rating });

const VESSELS: readonly WorkshopVessel[] = [
  vessel('oils-pot', 'oils pot', 'oils', 'stainless', 642.5, 3_000, '250'),
  vessel('oils-jug', 'oils jug', 'oils', 'plastic-pp', 318.5, 5_000, '120'),
  vessel('batch-pot', 'batch pot', 'oils', 'stainless', null, 20_000, '250'),
  vessel('lye-jug', 'lye jug', 'liquid', 'plastic-pp', 187.3, 1_000, '120'),
  vessel('lye-pail', 'lye pail', 'liquid', 'plastic-pp', 402.2, 8_000, '120'),
  vessel('soda-cup', 'soda cup', 'hydroxide', 'plastic-hdpe', 58.4, 400),
  vessel('soda-pail', 'soda pail', 'hydroxide', 'plastic-hdpe', 236.8, 3_000),
  vessel('scent-cup', 'scent cup', 'aside', 'glass', 96.2, 100),
  vessel('oat-cup', 'oat cup', 'aside', 'plastic-pp', 31.6, 150),
  vessel('clay-cup', 'clay cup', 'aside', 'plastic-pp', 18.9, 100),
];

/** `repeatability`: neither has been checked yet. */
const SCALES: readonly Scale[] = [
  { id: 'scale-main', role: 'main', name: 'big scale', capacity: mg(6_100_000), division: mg(100), repeatability: null },
  { id: 'scale-fine', role: 'fine', name: 'small scale', capacity: mg(610_000), division: mg(10), repeatability: null },
];

const MOULDS: readonly Mould[] = [
  { id: 'short-loaf', name: 'short loaf', shape: { kind: 'box', length: '250', width: '64', depth: '95' }, lengthU: null },
  {
    id: 'rounds',
    name: 'tray of six rounds',
    shape: { kind: 'tray', cavities: 6, cavity: { kind: 'cylinder', diameter: '70', length: '28' } },
    lengthU: null,
  },
  {
    id: 'leaf',
    name: 'leaf of silicone',
    shape: { kind: 'water-fill', water: '612', unit: 'g', celsius: '19', cavities: 6 },
    lengthU: null,
  },
  { id: 'slab', name: 'slab', shape: { kind: 'box', length: '480', width: '320', depth: '90' }, lengthU: null },
];

export const SAMPLE_WORKSHOP: PlanContext = {
  materials: [
    ...CATALOGUE,
    scent('alder-wood-scent', 'Alder wood fragrance oil', '0'),
    scent('meadowsweet-scent', 'Meadowsweet fragrance oil', '1.2'),
  ],
  preparations: [],
  lots: LOTS,
  moulds: MOULDS,
  scales: SCALES,
  vessels: VESSELS,
  pace: { perLine: 75, melting: 900, meeting: 2_400, pouring: 600, how: 'typed' },
  room: '20',
  losses: { residue: { grams: '25', how: 'typed' }, pour: { percent: '0.5', how: 'typed' } },
  calibration: null,
};
