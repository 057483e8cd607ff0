import { classLimits, permissibleError, smallestWeight, USP_TOLERANCE, weighingSpread, type ScaleClass } from '#lib/measure/metrology';
import { gramsIn } from '#lib/work/formula/reader';
import { checks, type Check } from './check';

const R76 = 'OIML R 76-1:2006, Table 6';
const TABLE_3 = 'OIML R 76-1:2006, Table 3';
const USP = 'USP General Chapter <41> Balances';

/** Class, load in intervals, permissible error in intervals on initial verification: each band's top, and the interval above it. */
const ERRORS: readonly (readonly [ScaleClass, number, number])[] = [
  ['I', 50_000, 0.5],
  ['I', 50_001, 1],
  ['I', 200_000, 1],
  ['I', 200_001, 1.5],
  ['II', 5_000, 0.5],
  ['II', 5_001, 1],
  ['II', 20_000, 1],
  ['II', 20_001, 1.5],
  ['III', 0, 0.5],
  ['III', 500, 0.5],
  ['III', 501, 1],
  ['III', 2_000, 1],
  ['III', 2_001, 1.5],
  ['III', 10_000, 1.5],
  ['IIII', 50, 0.5],
  ['IIII', 51, 1],
  ['IIII', 200, 1],
  ['IIII', 201, 1.5],
];

/** Class, e in grams, fewest and most intervals, smallest load in intervals. */
const LIMITS: readonly (readonly [ScaleClass, number, number, number, number])[] = [
  ['I', 0.001, 50_000, Number.POSITIVE_INFINITY, 100],
  ['II', 0.01, 100, 100_000, 20],
  ['II', 0.1, 5_000, 100_000, 50],
  ['III', 0.1, 100, 10_000, 20],
  ['III', 2, 100, 10_000, 20],
  ['III', 5, 500, 10_000, 20],
  ['IIII', 5, 100, 1_000, 10],
];

export const WEIGHING_CHECKS: readonly Check[] = [
  ...checks(ERRORS, ([scaleClass, load, published]) => ({
    subject: `scale of class ${scaleClass}, ${load} intervals`,
    quantity: 'permissible error, verification',
    unit: 'e',
    source: R76,
    grade: 'B' as const,
    published,
    ours: () => permissibleError(scaleClass, load, 1),
    within: 0,
  })),
  {
    subject: 'scale of class III, 600 intervals',
    quantity: 'permissible error, in service',
    unit: 'e',
    source: 'UK SI 1995/1907 Sch. 2 para 4.2: twice that of verification',
    grade: 'A',
    published: 2,
    ours: () => permissibleError('III', 600, 1, 'service'),
    within: 0,
  },
  ...LIMITS.flatMap(([scaleClass, e, fewest, most, least]): readonly Check[] => {
    const common = { unit: 'intervals', source: TABLE_3, grade: 'B' as const, within: 0 };
    const subject = `scale of class ${scaleClass}, e = ${e} g`;
    const limits = () => classLimits(scaleClass, e);
    return [
      { ...common, subject, quantity: 'fewest intervals', published: fewest, ours: () => limits()?.fewest ?? Number.NaN },
      ...(Number.isFinite(most)
        ? [{ ...common, subject, quantity: 'most intervals', published: most, ours: () => limits()?.most ?? Number.NaN }]
        : []),
      { ...common, subject, quantity: 'smallest load', published: least, ours: () => limits()?.leastLoad ?? Number.NaN },
    ];
  }),
  {
    subject: 'balance repeating to 0.00015 g',
    quantity: 'smallest weight at 0.10 %',
    unit: 'g',
    source: USP,
    grade: 'B',
    published: 0.3,
    ours: () => smallestWeight(0.00015, 0.0001, USP_TOLERANCE),
    within: 1e-9,
  },
  {
    subject: 'balance of unit repeatability',
    quantity: 'smallest weight at 0.10 %, in standard deviations',
    unit: 's',
    source: USP,
    grade: 'B',
    published: 2000,
    ours: () => smallestWeight(1, 0.001, USP_TOLERANCE),
    within: 1e-9,
  },
  {
    subject: 'balance that repeats better than 0.41 d',
    quantity: 'smallest weight at 0.10 %, in divisions',
    unit: 'd',
    source: USP,
    grade: 'B',
    published: 820,
    ours: () => smallestWeight(0, 1, USP_TOLERANCE),
    within: 1e-9,
  },
  {
    subject: 'difference of two rounded readings',
    quantity: 'standard uncertainty over the division',
    unit: '1',
    source: 'JCGM 100:2008, 4.3.7 and F.2.2.1: d/√12 each, so d/√6 (from memory)',
    grade: 'memory',
    published: 0.408,
    ours: () => weighingSpread(null, 1),
    within: 0.003,
    because: 'USP <41> rounds it up to 0.41',
  },
  ...checks(
    [
      ['oz', 28.349523125],
      ['lb', 453.59237],
    ] as const,
    ([unit, published]) => ({
      subject: `avoirdupois ${unit}`,
      quantity: 'grams',
      unit: 'g',
      source: 'NIST SP 811, App. B',
      grade: 'B' as const,
      published,
      ours: () => gramsIn(unit),
      within: 1e-9,
    }),
  ),
];
