import { cutInto } from '#lib/soap/cut';
import { allowableVariation, averagePlan, GUIDANCE_SHARE, handbookPlan, WHOLE_LOT_SHARE } from '#lib/soap/net/plans';
import { checkScale } from '#lib/soap/net/scale';
import { studentQuantile } from '#lib/soap/net/student';
import { tolerableError } from '#lib/soap/net/tolerable';
import { checks, type Check } from './check';

const ANNEX = 'Council Directive 76/211/EEC Annex I, 2.4';
const SI = 'UK SI 2006/659 Sch. 2';
const HB = 'NIST Handbook 133';
const none = Number.NaN;

/** Nominal grams, tolerable negative error in grams: both ends of each band. */
const TNE: readonly (readonly [number, number])[] = [
  [5, 0.5],
  [25, 2.3],
  [50, 4.5],
  [51, 4.5],
  [100, 4.5],
  [120, 5.4],
  [125, 5.7],
  [200, 9],
  [250, 9],
  [300, 9],
  [400, 12],
  [500, 15],
  [501, 15],
  [1000, 15],
];

/** Bars, sample, accepted defectives, sample and factor of the mean. */
const PLANS: readonly (readonly [number, number, number, number, number])[] = [
  [100, 50, 3, 30, 0.503],
  [500, 50, 3, 30, 0.503],
  [501, 80, 5, 50, 0.379],
  [3200, 80, 5, 50, 0.379],
  [3201, 125, 7, 50, 0.379],
];

const FACTORS: readonly (readonly [number, number])[] = [
  [2, 8.985],
  [3, 2.484],
  [4, 1.591],
  [5, 1.242],
  [6, 1.05],
  [7, 0.925],
  [8, 0.836],
  [9, 0.769],
  [10, 0.715],
  [11, 0.672],
  [12, 0.635],
  [251, 0.422],
  [3201, 0.291],
];

const VARIATIONS: readonly (readonly [number, number])[] = [
  [36, 3.6],
  [37, 3.6],
  [54, 3.6],
  [81, 5.4],
  [117, 7.2],
  [154, 9],
  [208, 10.8],
  [263, 12.7],
  [317, 14.5],
  [381, 16.3],
  [426, 18.1],
];

const t = (share: number, n: number): number => studentQuantile(share, n - 1) / Math.sqrt(n);

export const NET_CONTENT_CHECKS: readonly Check[] = [
  ...checks(TNE, ([nominal, published]) => ({
    subject: `package of ${nominal} g`,
    quantity: 'tolerable negative error',
    unit: 'g',
    source: ANNEX,
    grade: 'A' as const,
    published,
    ours: () => tolerableError(nominal).grams,
    within: 0,
    because: 'what is given in per cent is rounded up to a tenth of a gram',
  })),
  {
    subject: 'package of 2000 g',
    quantity: 'tolerable negative error',
    unit: 'g',
    source: `${ANNEX}; last row read in GOV.UK, Weights and measures: the law, packaged goods`,
    grade: 'A',
    published: 30,
    ours: () => tolerableError(2000).grams,
    within: 0,
  },
  ...PLANS.flatMap(([lot, sample, accept, forMean, factor]): readonly Check[] => {
    const common = { subject: `lot of ${lot} packages`, unit: '1', grade: 'A' as const, within: 0 };
    return [
      { ...common, quantity: 'sample', source: `${SI} para 3`, published: sample, ours: () => averagePlan(lot).contents?.sample ?? none },
      { ...common, quantity: 'accepted', source: `${SI} para 3`, published: accept, ours: () => averagePlan(lot).contents?.accept ?? none },
      {
        ...common,
        quantity: 'sample of the mean',
        source: `${SI} para 4`,
        published: forMean,
        ours: () => averagePlan(lot).mean?.sample ?? none,
      },
      {
        ...common,
        quantity: 'factor of the mean',
        source: `${SI} para 4`,
        published: factor,
        ours: () => averagePlan(lot).mean?.factor ?? none,
      },
    ];
  }),
  {
    subject: 'lot under 100 packages',
    quantity: 'defectives allowed',
    unit: '%',
    source: `${SI} para 3.6`,
    grade: 'A',
    published: 5,
    ours: () => 100 * WHOLE_LOT_SHARE,
    within: 1e-12,
  },
  {
    subject: 'lot under 100 packages',
    quantity: 'packages sampled instead of all',
    unit: '1',
    source: `${SI} paras 3.6 and 4.7: every one is weighed, no factor`,
    grade: 'A',
    published: 0,
    ours: () => averagePlan(99).contents?.sample ?? averagePlan(99).mean?.factor ?? 0,
    within: 0,
  },
  {
    subject: 'packages below Qn − TNE',
    quantity: 'packers’ guidance',
    unit: '%',
    source: 'UK average-quantity guidance (packers’ rules)',
    grade: 'A',
    published: 2.5,
    ours: () => 100 * GUIDANCE_SHARE,
    within: 1e-12,
  },
  ...checks(
    [
      [30, 0.5032],
      [50, 0.379],
      [20, 0.6397],
    ] as const,
    ([n, published]) => ({
      subject: `Student’s t at 0.995 over √${n}`,
      quantity: 'factor of the mean',
      unit: '1',
      source: '76/211/EEC Annex II, 2.3.1: confidence 0.995',
      grade: 'computed' as const,
      published,
      ours: () => t(0.995, n),
      within: 5e-5,
    }),
  ),
  {
    subject: 'scale for packages of 100 g',
    quantity: 'error of a measurement, at most',
    unit: 'g',
    source: 'NI SR 2011/331 Sch. 2 para 1.3; WELMEC 6.9: 0.2 × TNE',
    grade: 'A',
    published: 0.9,
    ours: () => checkScale({ step: 0.1, off: 0 }, 100).most,
    within: 1e-12,
  },
  ...checks(FACTORS, ([lot, published]) => ({
    subject: `lot of ${lot} packages`,
    quantity: 'sample correction factor, category A',
    unit: '1',
    source: `${HB}, Table 2-1`,
    grade: 'memory' as const,
    published,
    ours: () => handbookPlan(lot).factor ?? none,
    within: 0,
  })),
  ...checks(FACTORS, ([lot, published]) => ({
    subject: `Student’s t at 0.975 over √${handbookPlan(lot).sample}`,
    quantity: 'sample correction factor',
    unit: '1',
    source: `${HB}, Table 2-1`,
    grade: 'memory' as const,
    published,
    ours: () => t(0.975, handbookPlan(lot).sample),
    within: 0.0007,
    because: 'the table is remembered; at 48 it is said to be 0.291 where t gives 0.290',
  })),
  ...checks(
    [
      [11, 11],
      [12, 12],
      [250, 12],
      [251, 24],
      [3200, 24],
      [3201, 48],
    ] as const,
    ([lot, published]) => ({
      subject: `lot of ${lot} packages`,
      quantity: 'sample, category A',
      unit: '1',
      source: `${HB}, Table 2-1`,
      grade: 'memory' as const,
      published,
      ours: () => handbookPlan(lot).sample,
      within: 0,
    }),
  ),
  ...checks(VARIATIONS, ([label, published]) => ({
    subject: `package of ${label} g`,
    quantity: 'maximum allowable variation',
    unit: 'g',
    source: `${HB}, Appendix A, Table 2-5`,
    grade: 'memory' as const,
    published,
    ours: () => allowableVariation(label) ?? none,
    within: 1e-9,
  })),
  ...checks(
    [
      [10, 24.25],
      [12, 20.125],
    ] as const,
    ([bars, published]) => ({
      subject: `log of 254 mm, trims of 3, wire of 0.5, ${bars} bars`,
      quantity: 'thickness',
      unit: 'mm',
      source: '(L − 2·trim − (N + 1)·kerf) / N, arithmetic',
      grade: 'computed' as const,
      published,
      ours: () => cutInto({ length: 254, mass: null }, bars, { trim: 3, kerf: 0.5, ends: 2 })?.thickness ?? none,
      within: 1e-9,
    }),
  ),
];
