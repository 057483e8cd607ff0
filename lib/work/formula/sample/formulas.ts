import type { Amount, Entry, Formula, Part } from '../formula';
import { newEntry } from '../new-entry';

/**
 * Formulas of the invented workshop, whose plans are those typed for it (sample.ts) as the chemistry works them out: 5 % superfat, a lye of
 * one third.
 */
const entry = (id: string, part: Part, material: string, amount: Amount, more: Partial<Entry> = {}): Entry =>
  newEntry(id, part, { material, amount, ...more });

const mass = (value: string): Amount => ({ kind: 'mass', value, unit: 'g' });
const ofFats = (percent: string): Amount => ({ kind: 'share', of: 'fats', percent });
const REST: Amount = { kind: 'rest' };
const soda = entry('soda', 'alkali', 'sodium-hydroxide', REST, { lot: 'lot-soda-06' });
const water = entry('water', 'liquid', 'water', REST);

const formula = (id: string, name: string, version: number, given: Pick<Formula, 'entries' | 'size'> & Partial<Formula>): Formula => ({
  id,
  name,
  version,
  note: '',
  blends: [],
  wishes: { superfat: '5', lye: { kind: 'concentration', percent: '33.3333' } },
  moulds: [],
  limits: { superfat: { low: '4', high: '6' }, lye: { low: '32', high: '35' } },
  temperatures: {
    window: { low: '30', high: '50' },
    apart: '6',
    apartLevel: 'hold',
    setsAt: null,
    milkLimit: null,
    pourAt: '40',
  },
  references: [],
  ...given,
});

export const ALDER_AND_OAT_FORMULA = formula('alder-and-oat', 'Alder & oat', 3, {
  note: 'A plain bar with oats. The blend begins to set at 31 °C.',
  entries: [
    entry('coconut', 'fat', 'coconut', ofFats('28'), { keep: { low: '25', high: '31' } }),
    entry('shea', 'fat', 'shea', ofFats('12')),
    entry('olive', 'fat', 'olive', ofFats('40')),
    entry('rapeseed', 'fat', 'rapeseed', ofFats('20')),
    entry('alder-scent', 'fragrance', 'alder-wood-scent', ofFats('2.5'), { lot: 'lot-alder-03' }),
    entry('oat', 'extra', 'ground-oats', ofFats('1.5')),
    entry('clay', 'extra', 'green-clay', ofFats('0.8')),
    water,
    soda,
  ],
  size: { kind: 'fats', value: '1000', unit: 'g' },
  moulds: [{ mould: 'short-loaf', count: 1, fill: '92', pattern: 'plain-pour' }],
  temperatures: {
    window: { low: '30', high: '50' },
    apart: '6',
    apartLevel: 'hold',
    setsAt: '31',
    milkLimit: null,
    pourAt: '40',
  },
});

const MEADOWSWEET_FORMULA = formula('meadowsweet', 'Meadowsweet', 1, {
  note: 'A small one to practise on.',
  entries: [
    entry('coconut', 'fat', 'coconut', mass('150')),
    entry('olive', 'fat', 'olive', mass('250')),
    entry('sunflower', 'fat', 'sunflower-high-oleic', mass('100')),
    entry('meadowsweet-scent', 'fragrance', 'meadowsweet-scent', mass('12'), { lot: 'lot-meadowsweet-02' }),
    water,
    soda,
  ],
  size: null,
  moulds: [{ mould: 'rounds', count: 1, fill: '95', pattern: 'plain-pour' }],
});

const SLATE_FORMULA = formula('slate', 'Slate', 2, {
  note: 'A large one: the pot stands beside the scale, a jug carries the oils over.',
  entries: [
    entry('coconut', 'fat', 'coconut', mass('2400')),
    entry('olive', 'fat', 'olive', mass('5400')),
    entry('castor', 'fat', 'castor', mass('450')),
    entry('charcoal', 'extra', 'charcoal-powder', mass('40')),
    water,
    soda,
  ],
  size: null,
  moulds: [{ mould: 'slab', count: 1, fill: '85', pattern: 'plain-pour' }],
  temperatures: {
    window: { low: '30', high: '50' },
    apart: '6',
    apartLevel: 'advise',
    setsAt: null,
    milkLimit: null,
    pourAt: '40',
  },
});

export const SAMPLE_FORMULAS: readonly Formula[] = [ALDER_AND_OAT_FORMULA, MEADOWSWEET_FORMULA, SLATE_FORMULA];
