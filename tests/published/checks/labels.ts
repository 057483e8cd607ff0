import { mg } from '#lib/units/mass';
import { euChecklist, OPENED_INSTEAD } from '#lib/work/label/checklist';
import { customaryHeight, ESTIMATED_SIGN, INGREDIENT_HEIGHT, metricHeight } from '#lib/work/label/net-statement';
import { NO_LABEL_SETTINGS } from '#lib/work/label/settings';
import { checks, type Check } from './check';

const SQUARE_INCH = 25.4 ** 2;

export const LABEL_CHECKS: readonly Check[] = [
  ...checks(
    [
      [50, 2],
      [51, 3],
      [200, 3],
      [201, 4],
      [1000, 4],
      [1001, 6],
    ] as const,
    ([grams, published]) => ({
      subject: `nominal quantity of ${grams} g`,
      quantity: 'least height of its figures',
      unit: 'mm',
      source: 'Council Directive 76/211/EEC Annex I, 3.1, as told by the USDA mission to the EU',
      grade: 'C' as const,
      published,
      ours: () => metricHeight(mg(grams * 1000)).value,
      within: 0,
    }),
  ),
  {
    subject: 'estimated sign',
    quantity: 'least height',
    unit: 'mm',
    source: 'Council Directive 76/211/EEC Annex I, 3.3, as told by the USDA mission to the EU',
    grade: 'C',
    published: 3,
    ours: () => ESTIMATED_SIGN.value,
    within: 0,
  },
  {
    subject: 'list of ingredients, United States',
    quantity: 'least height of its letters',
    unit: 'inch',
    source: '21 CFR 701.3(b)',
    grade: 'A',
    published: 0.0625,
    ours: () => INGREDIENT_HEIGHT.value / 25.4,
    within: 1e-12,
  },
  ...checks(
    [
      [5, 1 / 16],
      [25, 1 / 8],
      [100, 3 / 16],
      [400, 1 / 4],
      [401, 1 / 2],
    ] as const,
    ([inches, published]) => ({
      subject: `front of ${inches} square inches`,
      quantity: 'least height of the net content',
      unit: 'inch',
      source: '21 CFR 701.13(i)',
      grade: 'memory' as const,
      published,
      ours: () => customaryHeight(inches * SQUARE_INCH).value / 25.4,
      within: 1e-12,
    }),
  ),
  {
    subject: 'cosmetics label, EU',
    quantity: 'things asked for by Art. 19(1)(a) to (g), the country of origin by itself',
    unit: '1',
    source: 'Regulation (EC) No 1223/2009 Art. 19(1), as summarised by the Austrian authority',
    grade: 'A',
    published: 8,
    ours: () =>
      euChecklist({
        settings: NO_LABEL_SETTINGS,
        list: { items: [], unnamed: [], leftOut: [] },
        silent: false,
        mark: '26-11/1',
        net: true,
        netGrams: 120,
      }).length,
    within: 0,
  },
  {
    subject: 'period after opening, EU',
    quantity: 'durability over which it replaces the date',
    unit: 'months',
    source: 'Regulation (EC) No 1223/2009 Art. 19(1)(c), as told by BVL (Germany) and HPRA (Ireland)',
    grade: 'A',
    published: 30,
    ours: () => OPENED_INSTEAD.value,
    within: 0,
  },
];
