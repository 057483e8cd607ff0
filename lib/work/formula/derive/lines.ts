import { hydroxide } from '#lib/soap/alkali';
import { fatDemand } from '#lib/soap/fat-portion';
import { M_KOH, M_NAOH } from '#lib/soap/molar-mass';
import { sumOf } from '#lib/units/sum';
import type { Derivation } from '../derivation';
import type { Line } from '../lines';
import type { Item } from '../model';
import { spreadOf } from '../scales';
import { isFixed, isHeld } from '../solve';
import type { Planning } from '../warnings/index';
import { KOH, NAOH, spoken } from './alkali';
import { acidFrom, computedFrom, derivation, fromFigure, n, typedFrom } from './shown';

/** How each line came to its mass, its share of the batter, and what an oil takes. */
export const lineDerivations = (planning: Planning): readonly Derivation[] =>
  planning.lines.flatMap((line) => [lineOf(planning, line), shareOf(planning, line), ...workingValue(line), ...takes(planning, line)]);

const lineOf = (planning: Planning, line: Line): Derivation => {
  const { plan, figures, item, scale } = line;
  const made = item.part === 'alkali' ? alkaliText(planning, line) : massText(planning, line);
  const values = item.found.makeup.values.map(({ what, name, figure }) => fromFigure(spoken(what, name), figure));
  const spread = scale === null ? null : spreadOf(scale);
  return derivation({
    id: `line:${plan.id}`,
    value: figures.grams,
    unit: 'g',
    ...made,
    inputs: [...made.inputs, ...values],
    u: spread === null ? null : spread / 1000,
    parts: spread === null ? [] : [{ what: `${scale?.name ?? ''}, as a weight on it scatters`, share: 1 }],
  });
};

const shareOf = ({ whole }: Planning, { plan, figures }: Line): Derivation =>
  derivation({
    id: `share:${plan.id}`,
    value: 100 * figures.shareOfBatter,
    unit: '%',
    formula: 'weight ÷ batter',
    filled: `${n(figures.grams)} g ÷ ${n(whole.batter)} g = ${n(100 * figures.shareOfBatter, 4)} %`,
    inputs: [computedFrom('weight', figures.grams, 'g', `line:${plan.id}`), computedFrom('batter', whole.batter, 'g', 'batter')],
  });

/** Which value an oil is reckoned with, and why that one: a figure of one source. */
const workingValue = ({ plan, item }: Line): readonly Derivation[] => {
  const { material, makeup, lot } = item.found;
  const used = makeup.values.find(({ what }) => what === 'saponification value');
  if (used === undefined || (material?.kind !== 'fat' && material?.kind !== 'wax')) return [];
  const { figure } = used;
  const why = figure.grade === 'certificate' ? `as the certificate of lot ${lot?.mark ?? ''} states it` : material.svReason;
  const input = fromFigure('saponification value', figure);
  return [
    derivation({
      id: `sv:${plan.id}`,
      value: input.value,
      unit: 'mg KOH/g',
      formula: `working value: ${why === '' ? 'as typed' : why}`,
      filled: '',
      inputs: [input],
    }),
  ];
};

/** Grams of pure NaOH that meet the whole demand of an oil. */
const takes = ({ whole }: Planning, { at, plan, figures, item }: Line): readonly Derivation[] => {
  if (item.part !== 'fat') return [];
  const fats = whole.each[at]?.fats ?? [];
  const value = fatDemand(fats) * M_NAOH;
  const values = item.found.makeup.values.filter(({ what }) => what.startsWith('saponification value'));
  return [
    derivation({
      id: `takes:${plan.id}`,
      value,
      unit: 'g',
      formula: 'weight × SV ÷ 1000 ÷ M(KOH) × M(NaOH)',
      filled: `${fats.map(({ mass, sv }) => `${n(mass)} g × ${n(sv)} mg/g`).join(' + ')} ÷ 1000 ÷ ${n(M_KOH)} × ${n(M_NAOH)} = ${n(value)} g of pure NaOH, without superfat`,
      inputs: [
        computedFrom('weight', figures.grams, 'g', `line:${plan.id}`),
        ...values.map(({ what, name, figure }) => fromFigure(spoken(what, name), figure)),
        KOH,
        NAOH,
      ],
    }),
  ];
};

type Made = Pick<Derivation, 'formula' | 'filled' | 'inputs'>;

const alkaliText = ({ balance, model }: Planning, { at, item, figures }: Line): Made => {
  const moles = figures.grams * (balance.per[at]?.supply ?? 0);
  if (item.amount.kind === 'mass') return scaledText(item.amount.grams, figures.grams);
  const kinds = [...new Set(item.found.makeup.alkalis.map(({ kind }) => kind))];
  const molar = kinds.map((kind) => `M(${kind}) ${n(hydroxide(kind).molarMass)} g/mol`).join(', ');
  const shared = model.items.filter(({ part }) => part === 'alkali').length > 1;
  return {
    formula: 'm = [(1 − s) × fat demand + acid demand] × share by moles ÷ moles to a gram',
    filled: `[(1 − ${n(balance.superfat)}) × ${n(balance.demand)} + ${n(balance.acid)}] mol × ${n(shared ? figures.shareOfPart : 1)} ÷ ${n(balance.per[at]?.supply ?? 0)} mol/g = ${n(figures.grams)} g (${n(moles)} mol; ${molar})`,
    inputs: [
      computedFrom('superfat', 100 * balance.superfat, '%', 'superfat'),
      computedFrom('fat demand', balance.demand, 'mol', 'fat-demand'),
      ...acidFrom(balance.acid),
    ],
  };
};

const SAME = 1e-9;

const scaledText = (given: number, grams: number): Made => {
  const times = grams / given;
  if (Math.abs(times - 1) < SAME) return { formula: 'm, as given', filled: `${n(grams)} g`, inputs: [typedFrom('weight', given, 'g')] };
  return {
    formula: 'm = weight as given × scaling',
    filled: `${n(given)} g × ${n(times)} = ${n(grams)} g`,
    inputs: [typedFrom('weight', given, 'g'), computedFrom('scaling', times, '1')],
  };
};

/** An oil beside others that are locked: what these leave, by its own part of what is free. */
const fatText = ({ model, whole }: Planning, item: Item, grams: number): Made | null => {
  const oils = [...model.items.entries()].filter(([, { part }]) => part === 'fat');
  const locked = oils.filter(([, one]) => isFixed(one) || isHeld(one));
  if (locked.length === 0 || isFixed(item) || isHeld(item)) return null;
  const weight = ({ amount }: Item): number => (amount.kind === 'mass' ? amount.grams : amount.fraction * (model.natural ?? 1));
  const free = sumOf(oils, ([, one]) => (isFixed(one) || isHeld(one) ? 0 : weight(one)));
  const held = sumOf(locked, ([at]) => whole.grams[at] ?? 0);
  const own = weight(item);
  return {
    formula: 'm = (all oils − those locked) × its part of what is not locked',
    filled: `(${n(whole.fats)} − ${n(held)}) g × ${n(own)} ÷ ${n(free)} = ${n(grams)} g`,
    inputs: [
      computedFrom('all oils', whole.fats, 'g', 'fats'),
      ...locked.map(([at, { found, entry }]) => computedFrom(`locked: ${found.name}`, whole.grams[at] ?? 0, 'g', `line:${entry.id}`)),
      typedFrom('as typed', item.amount.kind === 'mass' ? own : 100 * item.amount.fraction, item.amount.kind === 'mass' ? 'g' : '%'),
    ],
  };
};

const massText = (planning: Planning, { item, figures }: Line): Made => {
  const { whole, balance } = planning;
  const { amount } = item;
  const beside = item.part === 'fat' ? fatText(planning, item, figures.grams) : null;
  if (beside !== null) return beside;
  if (amount.kind === 'mass') return scaledText(amount.grams, figures.grams);
  if (amount.of === 'liquid') {
    return {
      formula: 'm = share × liquid that brings the lye to its concentration',
      filled: `${n(amount.fraction)} × ${n(figures.grams / amount.fraction)} g = ${n(figures.grams)} g; lye ${n(balance.pure)} g ÷ ${n(balance.solution)} g`,
      inputs: [
        typedFrom('share of the liquid', 100 * amount.fraction, '%'),
        computedFrom('lye concentration', 100 * balance.concentration, '%', 'lye-concentration'),
      ],
    };
  }
  const [of, base, id] = amount.of === 'batter' ? ['the batter', whole.batter, 'batter'] : ['all oils', whole.fats, 'fats'];
  // Shares typed to two decimals may miss a hundred by a hair: made up in proportion.
  const share = figures.grams / base;
  return {
    formula: `m = share × ${of}`,
    filled: `${n(100 * share)} % × ${n(base)} g = ${n(figures.grams)} g`,
    inputs: [typedFrom(`share of ${of}`, 100 * amount.fraction, '%'), computedFrom(of, base, 'g', id)],
  };
};
