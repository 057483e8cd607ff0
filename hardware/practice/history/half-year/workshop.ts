import { newEntry } from '#lib/work/formula/new-entry';
import type { Formula, Lot, Material, Mould, PlanContext, WorkshopVessel } from '#lib/work/formula/index';
import { ALDER_AND_OAT_FORMULA } from '#lib/work/formula/sample/formulas';
import { SAMPLE_WORKSHOP } from '#lib/work/formula/sample/workshop';
import type { CureKept, CutterKept } from '#lib/work/bars/documents';
import { NO_LABEL_SETTINGS } from '#lib/work/label/settings';
import type { LabelSettings } from '#lib/work/label/settings';
import type { Goods, Trade } from '#lib/work/orders/documents';

/** What stands in the invented workshop whose half-year the practice bench begins with. Nothing of it is anybody's. */

interface Made {
  readonly id: string;
  readonly name: string;
  /** Per cent of the fats: coconut, shea, olive, rapeseed. */
  readonly fats: readonly [number, number, number, number];
  readonly scent: 'alder-wood-scent' | 'meadowsweet-scent' | null;
  readonly extras: readonly ('ground-oats' | 'green-clay' | 'charcoal-powder')[];
  readonly moulds: Formula['moulds'];
}

const LOAF = (count: number, pattern: Formula['moulds'][number]['pattern'] = 'plain-pour'): Formula['moulds'][number] => ({
  mould: 'short-loaf',
  count,
  fill: '92',
  ...(pattern === undefined ? {} : { pattern }),
});
const ROUNDS: Formula['moulds'][number] = { mould: 'rounds', count: 1, fill: '95', pattern: 'plain-pour' };

const MADE: readonly Made[] = [
  {
    id: 'alder-and-oat',
    name: 'Alder & oat',
    fats: [28, 12, 40, 20],
    scent: 'alder-wood-scent',
    extras: ['ground-oats', 'green-clay'],
    moulds: [LOAF(1)],
  },
  {
    id: 'meadow-rain',
    name: 'Meadow rain',
    fats: [26, 10, 44, 20],
    scent: 'meadowsweet-scent',
    extras: [],
    moulds: [LOAF(1, 'drop-swirl'), ROUNDS],
  },
  { id: 'slate', name: 'Slate', fats: [30, 8, 42, 20], scent: null, extras: ['charcoal-powder'], moulds: [LOAF(1)] },
  {
    id: 'heather-hearth',
    name: 'Heather hearth',
    fats: [25, 15, 40, 20],
    scent: 'meadowsweet-scent',
    extras: ['ground-oats'],
    moulds: [LOAF(2, 'in-the-pot-swirl')],
  },
  { id: 'birch-brook', name: 'Birch brook', fats: [29, 10, 41, 20], scent: null, extras: ['green-clay'], moulds: [ROUNDS, LOAF(1)] },
];

const EXTRA = { 'ground-oats': '1.5', 'green-clay': '0.8', 'charcoal-powder': '0.3' } as const;

const share = (percent: string) => ({ kind: 'share', of: 'fats', percent }) as const;

export const FORMULAS: readonly Formula[] = MADE.map(({ id, name, fats, scent, extras, moulds }): Formula => {
  const kept = ALDER_AND_OAT_FORMULA.entries.filter(({ part }) => part === 'fat' || part === 'alkali' || part === 'liquid');
  let fat = 0;
  const entries = kept.map(({ keep: _keep, ...entry }) =>
    newEntry(entry.id, entry.part, entry.part === 'fat' ? { ...entry, amount: share(String(fats[fat++])) } : entry),
  );
  const scents = scent === null ? [] : [newEntry('scent', 'fragrance', { material: scent, amount: share('2.5') })];
  const more = extras.map((extra) => newEntry(extra, 'extra', { material: extra, amount: share(EXTRA[extra]) }));
  return {
    ...ALDER_AND_OAT_FORMULA,
    id,
    name,
    version: 1,
    note: '',
    entries: [...entries.slice(0, fats.length), ...scents, ...more, ...entries.slice(fats.length)],
    size: { kind: 'moulds' },
    moulds,
  };
});

export const MATERIALS: readonly Material[] = SAMPLE_WORKSHOP.materials.filter(({ origin }) => origin === 'maker');
export const MOULDS: readonly Mould[] = SAMPLE_WORKSHOP.moulds.filter(({ id }) => id === 'short-loaf' || id === 'rounds');
export const VESSELS: readonly WorkshopVessel[] = SAMPLE_WORKSHOP.vessels;
/** The one lot whose certificate every plan counts with. */
export const SODA: Lot | undefined = SAMPLE_WORKSHOP.lots.find(({ id }) => id === 'lot-soda-06');

/** What the supplier of a scent states with every delivery: its limit and allergens, so that labels name some. */
export const statedOf = (material: string): Lot['certificate'] =>
  SAMPLE_WORKSHOP.lots.find((one) => one.material === material && one.certificate?.allergens !== undefined)?.certificate ?? null;

export const CONTEXT: PlanContext = SAMPLE_WORKSHOP;

export const CUTTER: CutterKept = {
  id: 'wire-box',
  name: 'wire box',
  kind: 'adjustable',
  wires: null,
  gap: null,
  kerf: '0.5',
  least: '15',
  most: '40',
  ends: 2,
  trim: '3',
};
export const CURE: CureKept = {
  id: 'maker',
  days: 28,
  perWeek: '0.5',
  photos: [0, 1, 2, 4, 7, 14, 28],
  places: ['Rack by the door', 'Rack by the window', 'Cupboard'],
};
export const LABEL: LabelSettings = {
  ...NO_LABEL_SETTINGS,
  responsible: { name: 'Fell Beck Soap (practice)', address: 'The wash house\nNo such street 1' },
  purpose: 'Soap for hands and body',
  durability: { kind: 'opened', months: 12 },
};
export const TRADE: Trade = {
  id: 'maker',
  days: [1, 2, 3, 4, 5],
  batchesADay: 1,
  shelf: 420,
  rate: '17',
  minutes: 190,
  money: 'EUR',
  moulds: { 'short-loaf': { owned: 3, bars: 10 }, rounds: { owned: 2, bars: 6 } },
};

const goods = (id: string, pack: string, price: string, days: number): Goods => ({
  id,
  kind: 'material',
  name: '',
  pack,
  price,
  days,
  perBar: null,
  onHand: null,
});
export const GOODS: readonly Goods[] = [
  goods('coconut', '5000', '31', 6),
  goods('shea', '1000', '14.5', 6),
  goods('olive', '5000', '44', 4),
  goods('rapeseed', '5000', '19', 4),
  goods('sodium-hydroxide', '1000', '7.8', 8),
];

/** Days a lot lasts, so that one follows another, and grams of a pack. */
export const LASTS: Readonly<Record<string, readonly [days: number, pack: number]>> = {
  coconut: [52, 5000],
  shea: [66, 1000],
  olive: [45, 5000],
  rapeseed: [60, 5000],
  'sodium-hydroxide': [400, 1000],
  water: [30, 5000],
};

export const BUYERS = ['The mill shop', 'Ferry tea room', 'Lower green grocer'] as const;
