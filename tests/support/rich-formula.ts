import type { Formula, PlanContext } from '#lib/work/formula/index';
import { entry, formula, REST, share, SODA, workshop } from './formula';

/** Five fats, two alkalis, a milk, citric acid, a blend of three fragrances and three different moulds. */
export const RICH: Formula = formula({
  id: 'rich',
  name: 'Hedge and barn',
  entries: [
    entry('tallow', 'fat', 'tallow', share('25'), { keep: { low: '22', high: '28' } }),
    entry('coconut', 'fat', 'coconut', share('22'), { lot: 'lot-coconut-09' }),
    entry('olive', 'fat', 'olive', share('38')),
    entry('castor', 'fat', 'castor', share('5')),
    entry('shea', 'fat', 'shea', REST),
    { ...SODA, amount: share('90', 'hydroxide') },
    entry('potash', 'alkali', 'potassium-hydroxide', share('10', 'hydroxide'), { lot: 'lot-potash-01' }),
    entry('milk', 'liquid', 'goat-milk', share('40', 'liquid'), { frozen: true }),
    entry('water', 'liquid', 'water', REST),
    entry('citric', 'acid', 'citric-monohydrate-acid', share('1')),
    entry('lavender', 'fragrance', 'lavender-oil', share('50', 'blend'), { lot: 'lot-lavender-01' }),
    entry('rosemary', 'fragrance', 'rosemary-oil', share('30', 'blend'), { lot: 'lot-rosemary-01' }),
    entry('cedar', 'fragrance', 'cedarwood-oil', share('20', 'blend'), { lot: 'lot-cedar-01' }),
    entry('kaolin', 'extra', 'kaolin', share('1')),
  ],
  blends: [{ id: 'hedge', name: 'Hedge', amount: share('2.5'), entries: ['lavender', 'rosemary', 'cedar'] }],
  wishes: { superfat: '6', lye: { kind: 'concentration', percent: '31' } },
  size: { kind: 'moulds' },
  moulds: [
    { mould: 'short-loaf', count: 1, fill: '92' },
    { mould: 'rounds', count: 1, fill: '90' },
    { mould: 'leaf', count: 1, fill: '88' },
  ],
});

const certified = (id: string, mark: string, material: string, certificate: object) => ({
  id,
  mark,
  material,
  certificate: { date: '2026-01-30', supplier: 'Fellside Supplies', ...certificate },
  files: [],
});

export const RICH_WORKSHOP: PlanContext = workshop({
  lots: [
    ...workshop().lots,
    certified('lot-potash-01', 'PH 26-01', 'potassium-hydroxide', { purity: { value: '90', u: '0.5' } }),
    certified('lot-lavender-01', 'LA 26-01', 'lavender-oil', { limit: '6', allergens: [{ name: 'Linalool', percent: '32' }] }),
    certified('lot-rosemary-01', 'RO 26-01', 'rosemary-oil', { limit: '4', allergens: [{ name: 'Limonene', percent: '3' }] }),
    certified('lot-cedar-01', 'CW 26-01', 'cedarwood-oil', { limit: '3' }),
  ],
});
