import type { Hydroxide } from '#lib/soap/alkali';
import { lyeHeatCapacity } from '#lib/soap/lye/heat-capacity';
import { heatOfSolution, limitingHeat, waterPerHydroxide } from '#lib/soap/lye/heat-of-solution';
import { mixingPeak } from '#lib/soap/lye/mixing-peak';
import { saturation } from '#lib/soap/lye/solubility';
import { checks, type Check } from './check';

const strength = (hydroxide: Hydroxide, fraction: number): { naoh: number; koh: number } =>
  hydroxide === 'NaOH' ? { naoh: fraction, koh: 0 } : { naoh: 0, koh: fraction };

const FELDER: readonly (readonly [number, number])[] = [
  [3, -28.87],
  [4, -34.43],
  [5, -37.74],
  [10, -42.51],
  [20, -42.84],
  [30, -42.72],
  [40, -42.59],
  [50, -42.51],
  [100, -42.34],
  [200, -42.26],
  [500, -42.38],
  [1000, -42.47],
  [10000, -42.72],
];
const RATIO: readonly (readonly [number, number])[] = [
  [25, 6.661],
  [28, 5.709],
  [30, 5.18],
  [33.333, 4.44],
  [35, 4.123],
  [38, 3.622],
  [40, 3.33],
  [45, 2.714],
  [50, 2.22],
];
const HEAT_CAPACITY: readonly (readonly [Hydroxide, number, number])[] = [
  ['NaOH', 5, 3.929],
  ['NaOH', 10, 3.772],
  ['NaOH', 20, 3.603],
  ['NaOH', 25, 3.556],
  ['NaOH', 30, 3.52],
  ['KOH', 5, 3.886],
  ['KOH', 10, 3.64],
  ['KOH', 20, 3.254],
  ['KOH', 25, 3.096],
  ['KOH', 30, 2.956],
  // oxlint-disable-next-line oxc/approx-constant -- a heat capacity
  ['KOH', 40, 2.718],
  ['KOH', 45, 2.618],
];
/** Mole per cent, cal/(g °C). */
const PERRY: readonly (readonly [number, number])[] = [
  [0.5, 0.985],
  [1, 0.97],
  [9.09, 0.835],
  [16.7, 0.8],
  [28.6, 0.784],
  [37.5, 0.782],
];
const SOLUBILITY: readonly (readonly [Hydroxide, number, number])[] = [
  ['NaOH', 0, 42],
  ['NaOH', 20, 109],
  ['NaOH', 40, 129],
  ['NaOH', 60, 174],
  ['KOH', 0, 97],
  ['KOH', 20, 112],
  ['KOH', 100, 178],
];
/** Per cent of NaOH, start in °C, peak in °C. */
const PEAK: readonly (readonly [number, number, number])[] = [
  [25, 20, 89],
  [28, 20, 96],
  [30, 20, 101],
  [33.333, 20, 106],
  [38, 20, 110],
  [33.333, 5, 92],
];

const CALORIE = 4.184;
const massFraction = (molePercent: number): number =>
  (molePercent * 39.99676928) / (molePercent * 39.99676928 + (100 - molePercent) * 18.015);

const dissolution: readonly Check[] = [
  ...checks(FELDER, ([moles, published]) => ({
    subject: `NaOH in ${moles} mol of water`,
    quantity: 'integral heat of solution, 25 °C',
    unit: 'kJ/mol',
    source: 'Felder & Rousseau, Table B.11, on the older basis whose limit is −42.87',
    grade: 'memory' as const,
    published,
    ours: () => heatOfSolution('NaOH', moles).value,
    within: 1e-9,
  })),
  ...checks(
    [
      ['NaOH', -44.51, 'CRC Handbook, enthalpy of solution of electrolytes (Parker 1965)', 0],
      ['KOH', -57.61, 'CRC Handbook, enthalpy of solution of electrolytes (Parker 1965)', 0],
      ['NaOH', -44.3, 'from CRC enthalpies of formation, −240.1 − 230.0 + 425.8', 0.3],
      ['KOH', -57.8, 'from CRC enthalpies of formation, −252.4 − 230.0 + 424.6', 0.3],
    ] as const,
    ([hydroxide, published, source, within]) => ({
      subject: hydroxide,
      quantity: 'heat of solution at infinite dilution, 25 °C',
      unit: 'kJ/mol',
      source,
      grade: within === 0 ? 'B' : 'computed',
      published,
      ours: () => limitingHeat(hydroxide).value,
      within,
    }),
  ),
  {
    subject: '20 mol NaOH in 80 mol water at 25 °C',
    quantity: 'heat released',
    unit: 'kJ',
    source: 'Felder & Rousseau, Elementary Principles of Chemical Processes, problem 8.83, solution',
    grade: 'B',
    published: -688.6,
    ours: () => 20 * heatOfSolution('NaOH', 4).value,
    within: 0.05,
  },
  {
    subject: '7.2 kg NaOH in 180 kg water',
    quantity: 'temperature rise',
    unit: 'K',
    source: 'published process-engineering exercise with answer',
    grade: 'C',
    published: 10.15,
    ours: () => mixingPeak({ naoh: 7200, koh: 0, water: 180_000 }, 20).value - 20,
    within: 0.1,
  },
  ...checks(RATIO, ([percent, published]) => ({
    subject: `NaOH ${percent} %`,
    quantity: 'moles of water to a mole of NaOH',
    unit: 'mol/mol',
    source: '(100 − w) / 18.015 / (w / 39.99677)',
    grade: 'computed' as const,
    published,
    ours: () => waterPerHydroxide(percent, 0, 100 - percent),
    within: 0.0006,
  })),
];

const capacity: readonly Check[] = [
  ...checks(HEAT_CAPACITY, ([hydroxide, percent, published]) => ({
    subject: `${hydroxide} ${percent} %`,
    quantity: 'specific heat at 20 °C',
    unit: 'J/(g K)',
    source: 'M. Laliberté, J. Chem. Eng. Data 54 (2009) 1725–1760',
    grade: 'computed' as const,
    published,
    ours: () => lyeHeatCapacity(strength(hydroxide, percent / 100), 20).value,
    within: 0.002,
    because: 'the water it is added to is tabulated to a thousandth differently',
  })),
  ...checks(PERRY, ([molePercent, calories]) => ({
    subject: `NaOH ${molePercent} mol %`,
    quantity: 'specific heat at 20 °C',
    unit: 'J/(g K)',
    source: 'Perry’s, specific heats of aqueous solutions, sodium hydroxide',
    grade: 'memory' as const,
    published: calories * CALORIE,
    ours: () => lyeHeatCapacity(strength('NaOH', Math.min(0.5, massFraction(molePercent))), 20).value,
    within: 0.055 * calories * CALORIE,
    because: '4 to 5 % below the model for strong lye; that is in the stated uncertainty',
  })),
];

export const LYE_HEAT_CHECKS: readonly Check[] = [
  ...dissolution,
  ...capacity,
  ...checks(PEAK, ([percent, start, published]) => ({
    subject: `NaOH ${percent} % from ${start} °C`,
    quantity: 'adiabatic peak of mixing',
    unit: '°C',
    source: 'a heat balance worked by hand from the same two tables',
    grade: 'computed' as const,
    published,
    ours: () => mixingPeak({ naoh: percent, koh: 0, water: 100 - percent }, start).value,
    within: 1.5,
    because: 'straight lines between the tabulated heats there, a curve here',
  })),
  ...checks(SOLUBILITY, ([hydroxide, celsius, published]) => ({
    subject: hydroxide,
    quantity: `solubility at ${celsius} °C`,
    unit: 'g/100 g',
    source: 'physico-chemical table of solubilities 04-26 (romek.info)',
    grade: 'B' as const,
    published,
    ours: () => saturation(hydroxide, celsius) ?? Number.NaN,
    within: 0,
  })),
  {
    subject: 'NaOH',
    quantity: 'saturation at 20 °C as mass fraction',
    unit: '%',
    source: '109 / (100 + 109)',
    grade: 'computed',
    published: 52.15,
    ours: () => {
      const held = saturation('NaOH', 20) ?? Number.NaN;
      return (100 * held) / (100 + held);
    },
    within: 0.006,
  },
];
