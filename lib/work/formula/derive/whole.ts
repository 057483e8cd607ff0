import { componentsOf, lyeComponents } from '#lib/soap/batter';
import { M_GLYCEROL } from '#lib/soap/molar-mass';
import type { Derivation } from '../derivation';
import type { Planning } from '../warnings/index';
import { computedFrom, derivation, fromSource, n, typedFrom } from './shown';

/** What the batch as a whole comes to: volume, moulds, heat, what reacts, fragrance. */
export const wholeDerivations = (planning: Planning): readonly Derivation[] => [
  ...volume(planning),
  ...peak(planning),
  reaction(planning),
  ...iodine(planning),
  ...fragrance(planning),
];

const volume = ({ whole, sizing, facts }: Planning): readonly Derivation[] => {
  if (sizing === null) return [];
  const parts = [...componentsOf(whole.all, facts.size.pourAt), ...lyeComponents(whole.all, facts.size.pourAt)];
  const { batter, toPour, calibration, residue, pourLoss } = sizing;
  const times = calibration === null ? '' : ` × ${n(calibration.factor)}`;
  return [
    derivation({
      id: 'batter-volume',
      value: batter.value,
      unit: 'cm³',
      formula:
        calibration === null ? 'V = Σ mass ÷ density at pouring temperature' : 'V = Σ mass ÷ density at pouring temperature × calibration',
      filled: `(${parts.map(({ mass, density }) => `${n(mass)} ÷ ${n(density.value)}`).join(' + ')})${times} = ${n(batter.value)} cm³`,
      inputs: [
        typedFrom('pouring temperature', facts.size.pourAt, '°C'),
        ...parts.map(({ density }) => fromSource('density', density.value, 'g/cm³', density.source)),
        ...(calibration === null ? [] : [computedFrom(`calibration from ${calibration.batches} batches`, calibration.factor, '1')]),
      ],
      u: batter.u,
    }),
    derivation({
      id: 'to-pour',
      value: toPour.value,
      unit: 'cm³',
      formula: 'V less what stays in the pot, less what pouring loses',
      filled: `${n(batter.value)} − ${n(residue / sizing.density)} − ${n(pourLoss / sizing.density)} = ${n(toPour.value)} cm³`,
      inputs: [
        computedFrom('batter volume', batter.value, 'cm³', 'batter-volume'),
        typedFrom('stays in the pot', residue, 'g'),
        typedFrom('lost in pouring', pourLoss, 'g'),
      ],
      u: toPour.u,
    }),
    ...sizing.moulds.map((mould) =>
      derivation({
        id: `mould:${mould.mould}`,
        value: 100 * mould.full,
        unit: '%',
        formula: 'batter in one mould ÷ its volume to the brim',
        filled: `${n(mould.batter)} ÷ ${n(mould.brim.value)} cm³ = ${n(100 * mould.full, 4)} %`,
        inputs: [
          computedFrom('what is poured', toPour.value, 'cm³', 'to-pour'),
          fromSource('brim', mould.brim.value, 'cm³', mould.brim.source),
        ],
        u: 100 * mould.u,
      }),
    ),
  ];
};

const peak = ({ figures, facts, balance }: Planning): readonly Derivation[] => {
  const { mixingPeak } = figures;
  if (mixingPeak === null) return [];
  return [
    derivation({
      id: 'mixing-peak',
      value: mixingPeak.value,
      unit: '°C',
      formula: 'start + heat of solution ÷ (mass × heat capacity), no heat lost: an upper bound',
      filled: `from ${n(facts.room.celsius)} °C, ${n(balance.pure)} g of hydroxide in ${n(balance.solution)} g of lye: ${n(mixingPeak.value, 3)} °C`,
      inputs: [
        fromSource('heat balance', mixingPeak.value, '°C', mixingPeak.source),
        {
          ...typedFrom('the room', facts.room.celsius, '°C'),
          ...(facts.room.said ? {} : { source: 'nobody said: 20 °C taken', grade: 'common practice' as const }),
        },
      ],
      u: mixingPeak.u,
    }),
  ];
};

const reaction = ({ figures }: Planning): Derivation =>
  derivation({
    id: 'glycerol',
    value: figures.glycerol,
    unit: 'g',
    formula: 'ester bonds of triglycerides broken ÷ 3 × M(glycerol)',
    filled: `${n(figures.glycerol / M_GLYCEROL)} mol × ${n(M_GLYCEROL)} g/mol = ${n(figures.glycerol)} g; soap ${n(figures.soap)} g, water ${n(figures.waterBefore)} g before and ${n(figures.waterAfter)} g after`,
    inputs: [
      computedFrom('fat demand', figures.fatDemandMoles, 'mol', 'fat-demand'),
      computedFrom('superfat', 100 * figures.superfat.working, '%', 'superfat'),
    ],
  });

const iodine = ({ figures }: Planning): readonly Derivation[] =>
  figures.iodine === null
    ? []
    : [
        derivation({
          id: 'iodine',
          value: figures.iodine,
          unit: 'g I₂/100 g',
          formula: 'Σ share of each fat × its iodine value',
          filled: n(figures.iodine, 3),
          inputs: [
            fromSource('iodine value of a profile', figures.iodine, 'g I₂/100 g', {
              text: 'AOCS Cd 1c-85 (reapproved 2009), calculation 1',
              grade: 'B',
            }),
          ],
        }),
      ];

const fragrance = ({ figures, lines }: Planning): readonly Derivation[] => {
  const { verdict, driest } = figures.fragrance;
  if (verdict.kind === 'not-known') return [];
  const used = lines.filter(({ item }) => item.part === 'fragrance');
  if (used.length === 0) return [];
  const terms = used.map(({ figures: one, item }) => `${n((100 * one.grams) / driest, 3)} ÷ ${item.found.lot?.certificate?.limit ?? ''}`);
  return [
    derivation({
      id: 'fragrance-limit',
      value: verdict.sum,
      unit: '1',
      formula: 'Σ share of the driest bar ÷ limit of its certificate; up to 1 is sufficient, not necessary',
      filled: `${terms.join(' + ')} = ${n(verdict.sum, 3)}`,
      inputs: [
        computedFrom('bars with all water gone', driest, 'g'),
        ...used.map(({ item }) => ({
          name: `limit of ${item.found.name}`,
          value: Number(item.found.lot?.certificate?.limit ?? Number.NaN),
          unit: '%',
          source: `${item.found.lot?.certificate?.supplier ?? ''}, certificate of ${item.found.lot?.certificate?.date ?? ''}`,
          grade: 'certificate' as const,
        })),
      ],
    }),
  ];
};
