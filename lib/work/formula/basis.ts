import { sourceLine } from '#lib/soap/source';
import { allergenThreshold } from '#lib/soap/fragrance';
import type { BasisValue, PlanBasis } from '../batch/plan';
import type { PlanFigures, Sizing } from './answer';
import type { Balance } from './chemistry';
import { valuesOf } from './basis-values';
import type { PlanContext } from './context';
import type { Facts } from './facts';
import { decimal } from './figure';
import type { Formula } from './formula';
import type { Line } from './lines';
import { pouredBasisOf } from './poured-basis';

/** Of the computation: a plan says which one made it. */
export const METHOD = 'potwatch plan 1';

const computed = (what: string, value: number, unit: string): BasisValue => ({
  what,
  value: decimal(value),
  unit,
  source: METHOD,
  grade: 'computed',
});

/** Everything the numbers rest on, as text: a batch freezes it with its plan. */
export const basisOf = (
  formula: Formula,
  lines: readonly Line[],
  figures: PlanFigures,
  balance: Balance,
  sizing: Sizing | null,
  facts: Facts,
  context: PlanContext,
): PlanBasis => ({
  method: METHOD,
  asked: [...askedOf(formula), ...facts.size.moulds.flatMap(mouldAsked)],
  worked: [
    computed('superfat', 100 * figures.superfat.working, '%'),
    computed('superfat, standard uncertainty', 100 * figures.superfat.u, 'points'),
    computed('lye concentration', 100 * figures.lyeConcentration, '%'),
    computed('sodium hydroxide of all hydroxide, by moles', 100 * figures.naohShare, '%'),
    computed('fats', figures.fats, 'g'),
    computed('batter', figures.batter, 'g'),
    ...(sizing === null ? [] : sizingValues(sizing, facts, context)),
    ...fragranceValues(figures),
  ],
  values: lines.flatMap((line) => valuesOf(line, context)),
  limits: limitsOf(formula, balance, facts, lines),
  poured: pouredBasisOf(lines, balance, facts, context.scales),
});

/** What a label names by weight, as it stands in the driest bar. */
const fragranceValues = ({ fragrance: { driest, allergens } }: PlanFigures): readonly BasisValue[] => [
  ...(allergens.length === 0 ? [] : [computed('bars with all water gone', driest, 'g')]),
  ...allergens.map(({ name, share }) => computed(`allergen in the driest bar: ${name}`, 100 * share, '%')),
];

const LOSS_SOURCE = { typed: 'this workshop’s habits', measured: 'measured in this workshop' } as const;

/** What the volume rests on: moulds as they were measured then, losses and the calibration of that day. */
const sizingValues = ({ batter, pourAt, calibration }: Sizing, { size }: Facts, { losses }: PlanContext): readonly BasisValue[] => [
  computed('volume of batter', batter.value, 'cm³'),
  computed('poured at', pourAt, '°C'),
  ...(losses.residue === null
    ? []
    : [{ ...computed('stays in the pot', size.residue, 'g'), source: LOSS_SOURCE[losses.residue.how], grade: 'typed' }]),
  ...(losses.pour === null
    ? []
    : [{ ...computed('lost in pouring', 100 * size.pourLoss, '%'), source: LOSS_SOURCE[losses.pour.how], grade: 'typed' }]),
  ...(calibration === null ? [] : [computed(`calibration by ${calibration.batches} batches`, calibration.factor, '1')]),
  ...size.moulds.map(({ name, brim: { volume } }) => ({
    ...computed(`mould to the brim: ${name}`, volume.value, 'cm³'),
    source: volume.source.text,
  })),
];

const mouldAsked = ({ name, count, fill }: Facts['size']['moulds'][number]): readonly BasisValue[] => [
  asked(`moulds: ${name}`, decimal(count), '1'),
  asked(`mould filled to: ${name}`, decimal(100 * fill), '%'),
];

const asked = (what: string, value: string, unit: string): BasisValue => ({ what, value, unit, source: 'the formula', grade: 'typed' });

const askedOf = ({ wishes, size }: Formula): readonly BasisValue[] => [
  ...(wishes.superfat === null ? [] : [asked('superfat', wishes.superfat, '%')]),
  ...(wishes.lye === null
    ? []
    : [
        wishes.lye.kind === 'concentration'
          ? asked('lye concentration', wishes.lye.percent, '%')
          : asked('water to pure alkali', wishes.lye.water, '1'),
      ]),
  ...(size === null || size.kind === 'moulds' ? [] : [asked(`size by ${size.kind}`, size.value, size.unit)]),
];

const source = (said: boolean): string => (said ? 'the formula' : 'usual width, common practice, no source');

const band = (what: string, [low, high]: readonly [number, number], said: boolean): PlanBasis['limits'][number] => ({
  what,
  low: decimal(100 * low),
  high: decimal(100 * high),
  source: source(said),
});

const limitsOf = (formula: Formula, balance: Balance, facts: Facts, lines: readonly Line[]): PlanBasis['limits'] => {
  const keeps = lines.flatMap(({ item }) => {
    const { keep } = item.entry;
    return keep === null ? [] : [{ what: `share of fats: ${item.entry.id}`, low: keep.low, high: keep.high, source: source(true) }];
  });
  const certified = lines.flatMap(({ item }) => {
    const limit = item.part === 'fragrance' ? (item.found.lot?.certificate?.limit ?? null) : null;
    return limit === null
      ? []
      : [
          {
            what: `in the finished bar: ${item.entry.id}`,
            low: null,
            high: limit,
            source: `certificate of ${item.found.lot?.certificate?.date ?? ''}`,
          },
        ];
  });
  const references = formula.references.flatMap(({ kind, number, ranges }) =>
    ranges.map(({ material, low, high }) => ({ what: `of the batter: ${material}`, low, high, source: `${kind} ${number}` })),
  );
  const threshold = allergenThreshold();
  return [
    band('superfat', balance.superfatBand, facts.superfatLimits !== null),
    band('lye concentration', balance.lyeBand, facts.lyeLimits !== null),
    ...keeps,
    ...certified,
    ...references,
    { what: 'allergen named on the label from', low: null, high: decimal(100 * threshold.value), source: sourceLine(threshold.source) },
  ];
};
