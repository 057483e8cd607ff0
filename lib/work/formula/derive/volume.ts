import { loafRule } from '#lib/soap/volume';
import type { Derivation } from '../derivation';
import { componentsOf, lyeComponents } from '#lib/soap/batter';
import type { MouldFill, Sizing } from '../answer';
import type { Planning } from '../warnings/index';
import { combined, computedFrom, derivation, fromSource, n, saidFrom, typedFrom } from './shown';

const NOBODY = 'nobody said: nothing taken off';

/** Volume of the batter, what is poured of it, and how full each mould gets. */
export const volumeDerivations = (planning: Planning): readonly Derivation[] => {
  const { sizing } = planning;
  if (sizing === null) return [];
  return [
    batter(planning, sizing),
    ...calibrated(planning, sizing),
    density(planning, sizing),
    poured(planning, sizing),
    ...sizing.moulds.flatMap((mould, at) => mouldOf(sizing, mould, at)),
    ...loaf(planning, sizing),
  ];
};

const countOf = (batches: number): string => (batches === 1 ? 'one batch' : `${batches} batches`);

const batter = ({ whole, facts }: Planning, { batter: volume, calibration }: Sizing): Derivation => {
  const { pourAt, pourAtSaid } = facts.size;
  const parts = [...componentsOf(whole.all, pourAt), ...lyeComponents(whole.all, pourAt)];
  const times = calibration === null ? '' : ` × ${n(calibration.factor)}`;
  return derivation({
    id: 'batter-volume',
    value: volume.value,
    unit: 'cm³',
    formula: `V = Σ mass ÷ density at pouring temperature${calibration === null ? '' : ' × calibration'}`,
    filled: `(${parts.map(({ mass, density: one }) => `${n(mass)} ÷ ${n(one.value)}`).join(' + ')})${times} = ${n(volume.value)} cm³`,
    inputs: [
      saidFrom('pouring temperature', pourAt, '°C', pourAtSaid ? 'the formula' : null, 'nobody said: the middle of the window'),
      ...parts.map(({ density: one }) => fromSource('density', one.value, 'g/cm³', one.source)),
      ...(calibration === null
        ? []
        : [computedFrom(`calibration by ${countOf(calibration.batches)} of this maker’s own`, calibration.factor, '1', 'calibration')]),
    ],
    u: volume.u,
  });
};

const calibrated = ({ context, facts }: Planning, { calibration }: Sizing): readonly Derivation[] => {
  if (calibration === null) return [];
  const from = context.calibration?.from ?? [];
  return [
    derivation({
      id: 'calibration',
      value: calibration.factor,
      unit: '1',
      formula: 'mean of true volume ÷ computed volume, by how full the moulds of each batch got',
      filled:
        from.length === 0 ? '' : `(${from.map(({ factor }) => n(Number(factor))).join(' + ')}) ÷ ${from.length} = ${n(calibration.factor)}`,
      inputs:
        from.length === 0
          ? [typedFrom('calibration', calibration.factor, '1', countOf(calibration.batches))]
          : from.map(({ mark, factor }) => typedFrom(`batch ${mark}`, Number(factor), '1', 'how full its moulds got, Batches')),
      u: facts.size.calibration?.u ?? null,
    }),
  ];
};

const density = ({ whole }: Planning, { batter: volume, density: value }: Sizing): Derivation =>
  derivation({
    id: 'density',
    value,
    unit: 'g/cm³',
    formula: 'batter ÷ its volume',
    filled: `${n(whole.batter)} g ÷ ${n(volume.value)} cm³ = ${n(value, 4)} g/cm³`,
    inputs: [
      computedFrom('batter', whole.batter, 'g', 'batter'),
      computedFrom('volume of the batter', volume.value, 'cm³', 'batter-volume'),
    ],
    u: (value * volume.u) / volume.value,
  });

const saidBy = (said: { readonly how: 'typed' | 'measured' } | null): string | null =>
  said === null ? null : said.how === 'measured' ? 'measured in this workshop' : 'this workshop’s habits';

const poured = ({ context, facts }: Planning, { batter: volume, toPour, residue, pourLoss, density: value }: Sizing): Derivation => {
  const { losses } = context;
  return derivation({
    id: 'to-pour',
    value: toPour.value,
    unit: 'cm³',
    formula: 'V less what stays in the pot, less what pouring loses',
    filled: `${n(volume.value)} − ${n(residue / value)} − ${n(pourLoss / value)} = ${n(toPour.value)} cm³`,
    inputs: [
      computedFrom('batter volume', volume.value, 'cm³', 'batter-volume'),
      saidFrom('stays in the pot', residue, 'g', saidBy(losses.residue), NOBODY),
      saidFrom('lost in pouring', 100 * facts.size.pourLoss, '%', saidBy(losses.pour), NOBODY),
      computedFrom('density', value, 'g/cm³', 'density'),
    ],
    u: toPour.u,
  });
};

const mouldOf = ({ toPour, density: value }: Sizing, mould: MouldFill, at: number): readonly Derivation[] => {
  const { brim, batter: volume, grams, full, u, leftAbove, depth } = mould;
  const brimFrom = computedFrom('to the brim', brim.value, 'cm³', `brim:${at}`);
  return [
    derivation({
      id: `brim:${at}`,
      value: brim.value,
      unit: 'cm³',
      formula: brim.source.text,
      filled: mould.sides === '' ? `${n(brim.value)} cm³` : `${mould.sides} = ${n(brim.value)} cm³`,
      inputs: [{ ...fromSource('as noted with the mould', brim.value, 'cm³', brim.source), grade: 'typed', source: 'Setup, Moulds' }],
      u: brim.u,
    }),
    derivation({
      id: `in-mould:${at}`,
      value: grams,
      unit: 'g',
      formula: 'its part of what is poured × density',
      filled: `${n(volume)} cm³ × ${n(value, 4)} g/cm³ = ${n(grams)} g`,
      inputs: [computedFrom('what is poured', toPour.value, 'cm³', 'to-pour'), computedFrom('density', value, 'g/cm³', 'density')],
      u: grams * (u / full),
    }),
    derivation({
      id: `mould:${at}`,
      value: 100 * full,
      unit: '%',
      formula: 'batter in one mould ÷ its volume to the brim',
      filled: `${n(volume)} ÷ ${n(brim.value)} cm³ = ${n(100 * full, 4)} %`,
      inputs: [computedFrom('what is poured', toPour.value, 'cm³', 'to-pour'), brimFrom],
      ...combined([
        { what: 'volume of the batter', u: (100 * full * toPour.u) / toPour.value },
        { what: 'volume of the mould', u: (100 * full * brim.u) / brim.value },
      ]),
    }),
    ...(leftAbove === null || depth === null
      ? []
      : [
          derivation({
            id: `left:${at}`,
            value: leftAbove,
            unit: 'mm',
            formula: '(1 − full) × depth',
            filled: `(1 − ${n(full, 4)}) × ${n(depth)} mm = ${n(leftAbove, 4)} mm`,
            inputs: [computedFrom('full', 100 * full, '%', `mould:${at}`), computedFrom('depth', depth, 'mm')],
            u: u * depth,
          }),
        ]),
  ];
};

const loaf = ({ whole }: Planning, { loafRule: rule }: Sizing): readonly Derivation[] =>
  rule === null
    ? []
    : [
        derivation({
          id: 'loaf-rule',
          value: rule.fats,
          unit: 'g',
          formula: '0.40 oz of oils × cubic inches, 0.692 g to the cm³; fits a lye of about 34 % only',
          filled: `${n(loafRule(1).value, 4)} g/cm³ × ${n(rule.volume)} cm³ of loaves, as full as wished = ${n(rule.fats)} g; of this plan’s ${n(whole.fats)} g of oils ${n(rule.here)} g go there`,
          inputs: [
            fromSource('the trade’s rule', loafRule(1).value, 'g/cm³', loafRule(1).source),
            computedFrom('all oils', whole.fats, 'g', 'fats'),
          ],
        }),
      ];
