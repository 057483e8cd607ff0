import { hydroxide } from '#lib/soap/alkali';
import type { Derivation } from '../derivation';
import type { Line } from '../lines';
import type { Planning } from '../warnings/index';
import { computedFrom, derivation, fromFigure, n, typedFrom } from './shown';

/** How each line came to its mass. */
export const lineDerivations = (planning: Planning): readonly Derivation[] => planning.lines.map((line) => lineOf(planning, line));

const lineOf = (planning: Planning, line: Line): Derivation => {
  const { plan, figures, item } = line;
  const made = item.part === 'alkali' ? alkaliText(planning, line) : massText(planning, line);
  const values = item.found.makeup.values.map(({ what, name, figure }) => fromFigure(`${what} of ${name}`, figure));
  return derivation({
    id: `line:${plan.id}`,
    value: figures.grams,
    unit: 'g',
    ...made,
    inputs: [...made.inputs, ...values],
  });
};

type Made = Pick<Derivation, 'formula' | 'filled' | 'inputs'>;

const alkaliText = ({ balance, model }: Planning, { at, item, figures }: Line): Made => {
  const moles = figures.grams * (balance.per[at]?.supply ?? 0);
  if (item.amount.kind === 'mass') {
    return { formula: 'm, as given', filled: `${n(figures.grams)} g`, inputs: [typedFrom('mass', item.amount.grams, 'g')] };
  }
  const kinds = [...new Set(item.found.makeup.alkalis.map(({ kind }) => kind))];
  const molar = kinds.map((kind) => `M(${kind}) ${n(hydroxide(kind).molarMass)} g/mol`).join(', ');
  const shared = model.items.filter(({ part }) => part === 'alkali').length > 1;
  return {
    formula: 'm = [(1 − s) × fat demand + acid demand] × share by moles ÷ moles to a gram',
    filled: `[(1 − ${n(balance.superfat)}) × ${n(balance.demand)} + ${n(balance.acid)}] mol × ${n(shared ? figures.shareOfPart : 1)} ÷ ${n(balance.per[at]?.supply ?? 0)} mol/g = ${n(figures.grams)} g (${n(moles)} mol; ${molar})`,
    inputs: [
      computedFrom('superfat', 100 * balance.superfat, '%', 'superfat'),
      computedFrom('fat demand', balance.demand, 'mol', 'fat-demand'),
      computedFrom('acid demand', balance.acid, 'mol', 'acid-demand'),
    ],
  };
};

const massText = ({ whole, balance }: Planning, { item, figures }: Line): Made => {
  const { amount } = item;
  if (amount.kind === 'mass') {
    const times = figures.grams / amount.grams;
    return {
      formula: 'm = mass as given × scaling',
      filled: `${n(amount.grams)} g × ${n(times)} = ${n(figures.grams)} g`,
      inputs: [typedFrom('mass', amount.grams, 'g'), computedFrom('scaling', times, '1')],
    };
  }
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
  const [of, base] = amount.of === 'batter' ? ['batter', whole.batter] : ['fats', whole.fats];
  return {
    formula: `m = share × ${of}`,
    filled: `${n(100 * amount.fraction)} % × ${n(base)} g = ${n(figures.grams)} g`,
    inputs: [
      typedFrom(`share of the ${of}`, 100 * amount.fraction, '%'),
      computedFrom(of, base, 'g'),
      computedFrom('superfat for one gram more', 100 * figures.superfatPerGram, 'points'),
    ],
  };
};
