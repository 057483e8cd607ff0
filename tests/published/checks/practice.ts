import { allergenThreshold } from '#lib/soap/fragrance';
import { fatById } from '#lib/soap/fats/index';
import { lyeConcentration, lyeOf } from '#lib/soap/lye/composition';
import { waterDensity } from '#lib/soap/lye/density-model';
import { waterHeatCapacity } from '#lib/soap/lye/heat-capacity';
import { fatDensity, loafRule } from '#lib/soap/volume';
import { checks, type Check } from './check';

/** Grams of NaOH as weighed in 100 g of lye, at 98 %. */
const impure = (): number =>
  100 *
  lyeConcentration(
    lyeOf({
      alkalis: [{ kind: 'NaOH', mass: 33.8, purity: 0.98 }],
      liquids: [{ mass: 66.2, fractions: { water: 1, fat: 0, sugar: 0, acid: 0 }, acid: 'lactic', fatSv: null }],
    }),
  );

export const PRACTICE_CHECKS: readonly Check[] = [
  {
    subject: '33.8 g of 98 % NaOH in 100 g',
    quantity: 'lye concentration',
    unit: '%',
    source: 'pure alkali over the whole solution: 0.98 × 33.8',
    grade: 'computed',
    published: 33.1,
    ours: impure,
    within: 0.05,
  },
  {
    subject: 'rectangular loaf',
    quantity: 'fats to a volume, 0.40 oz to the cubic inch',
    unit: 'g/cm³',
    source: 'common practice, no source; converted by NIST SP 811',
    grade: 'computed',
    published: 0.692,
    ours: () => loafRule(1).value,
    within: 0.0005,
  },
  {
    subject: 'allergens on a rinse-off product',
    quantity: 'declaration threshold',
    unit: '%',
    source: 'Regulation (EU) 2023/1545, amending Annex III of (EC) 1223/2009',
    grade: 'A',
    published: 0.01,
    ours: () => 100 * allergenThreshold().value,
    within: 1e-12,
  },
  {
    subject: 'lard',
    quantity: 'density at 40 °C over water at 20 °C',
    unit: '1',
    source: 'Canada Food and Drug Regulations, C.R.C. c. 870, B.09.013',
    grade: 'A',
    published: [0.894, 0.906],
    ours: () => fatDensity(fatById('lard').density, 40).value / (waterDensity(20) / 1000),
    within: 0,
  },
  {
    subject: 'water',
    quantity: 'molar heat capacity at 25 °C',
    unit: 'J/(mol K)',
    source: 'CRC Handbook thermodynamic tables',
    grade: 'B',
    published: 75.3,
    ours: () => waterHeatCapacity(25) * 18.015,
    within: 0.06,
  },
  ...checks(
    [
      [10, 0.9997],
      [20, 0.9982],
      [25, 0.99705],
      [40, 0.99222],
      [60, 0.9832],
      [80, 0.97182],
    ] as const,
    ([celsius, published]) => ({
      subject: 'water',
      quantity: `density at ${celsius} °C`,
      unit: 'g/cm³',
      source: 'CRC Handbook, properties of water',
      grade: 'memory' as const,
      published,
      ours: () => waterDensity(celsius) / 1000,
      within: 3e-5,
      because: 'editions differ in the last digit',
    }),
  ),
];
