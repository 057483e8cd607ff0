import { M_KOH, M_NAOH } from '#lib/soap/molar-mass';

import type { Derivation, DerivedFrom } from '../derivation';
import type { Believed } from '../interval';
import type { FatIn } from '../makeup';
import { itemsOf } from '../model';
import type { Planning } from '../warnings/index';
import { computedFrom, derivation, fromFigure, n, typedFrom } from './shown';

const MOLAR = { source: 'IUPAC/CIAAW conventional atomic weights', grade: 'standard' } as const;
const KOH: DerivedFrom = { name: 'molar mass of KOH', value: M_KOH, unit: 'g/mol', ...MOLAR };
const NAOH: DerivedFrom = { name: 'molar mass of NaOH', value: M_NAOH, unit: 'g/mol', ...MOLAR };

/** What these need of a plan; a card has as much. */
export type AlkaliFacts = Pick<Planning, 'balance' | 'model' | 'whole' | 'formula'>;

/** Fat demand, acid demand, superfat and lye concentration, each from the one before. */
export const alkaliDerivations = (planning: AlkaliFacts, belief: Believed): readonly Derivation[] => [
  demand(planning, belief.fats),
  acid(planning),
  superfat(planning, belief),
  concentration(planning),
];

const demand = ({ balance, model }: AlkaliFacts, fats: readonly FatIn[]): Derivation => {
  const figures = model.items.flatMap(({ found }) => found.makeup.values.filter(({ what }) => what.startsWith('saponification value')));
  return derivation({
    id: 'fat-demand',
    value: balance.demand,
    unit: 'mol',
    formula: 'D = Σ mass × SV ÷ 1000 ÷ M(KOH)',
    filled: `(${fats.map(({ mass, sv }) => `${n(mass)} g × ${n(sv)}`).join(' + ')}) mg/g ÷ 1000 ÷ ${n(M_KOH)} g/mol = ${n(balance.demand)} mol, ${n(balance.demand * M_NAOH)} g of NaOH`,
    inputs: [...figures.map(({ name, figure }) => fromFigure(`saponification value of ${name}`, figure)), KOH, NAOH],
  });
};

const acid = ({ balance, whole }: AlkaliFacts): Derivation =>
  derivation({
    id: 'acid-demand',
    value: balance.acid,
    unit: 'mol',
    formula: 'A = Σ mass × strength × moles of hydroxide to a gram',
    filled:
      whole.all.acids.length === 0
        ? 'no acid'
        : `${whole.all.acids.map((one) => `${n(one.mass)} g × ${n(one.strength)} × ${n(one.molesPerGram)}`).join(' + ')} = ${n(balance.acid)} mol`,
    inputs: [
      { name: 'moles of hydroxide to a gram of acid', value: balance.acid, unit: 'mol', source: 'stoichiometry', grade: 'computed' },
    ],
  });

const superfat = ({ balance, formula, model }: AlkaliFacts, { interval, fats, alkalis }: Believed): Derivation => {
  const purities = model.items.flatMap(({ found }) => found.makeup.values.filter(({ what }) => what === 'purity'));
  const { wishes } = formula;
  return derivation({
    id: 'superfat',
    value: 100 * balance.superfat,
    unit: '%',
    formula: 's = 1 − (alkali − acid demand) ÷ fat demand',
    filled: `1 − (${n(balance.supply)} − ${n(balance.acid)}) ÷ ${n(balance.demand)} mol = ${n(100 * balance.superfat, 4)} %`,
    inputs: [
      computedFrom('fat demand', balance.demand, 'mol', 'fat-demand'),
      computedFrom('acid demand', balance.acid, 'mol', 'acid-demand'),
      computedFrom('pure alkali', balance.supply, 'mol'),
      ...purities.map(({ name, figure }) => fromFigure(`purity of ${name}`, figure)),
      ...(wishes.superfat === null ? [] : [typedFrom('superfat asked for', Number(wishes.superfat), '%')]),
    ],
    u: 100 * interval.u,
    parts: interval.parts.map(({ what, side, of, share }) => {
      const name = (side === 'fats' ? fats : alkalis)[of]?.name ?? '';
      return { what: `${what === 'sv' ? 'saponification value' : what} of ${name}`, share };
    }),
  });
};

const concentration = ({ balance, formula, model }: AlkaliFacts): Derivation => {
  const { lye } = formula.wishes;
  const jug = [...itemsOf(model, 'alkali'), ...itemsOf(model, 'liquid')].map(({ found }) => found.name);
  return derivation({
    id: 'lye-concentration',
    value: 100 * balance.concentration,
    unit: '%',
    formula: 'c = pure alkali ÷ whole solution (fat of a milk left out)',
    filled: `${n(balance.pure)} g ÷ ${n(balance.solution)} g = ${n(100 * balance.concentration, 4)} %`,
    inputs: [
      computedFrom('pure alkali', balance.pure, 'g'),
      computedFrom(`solution of ${jug.join(', ')}`, balance.solution, 'g'),
      ...(lye === null
        ? []
        : [
            lye.kind === 'ratio'
              ? typedFrom('water to pure alkali', Number(lye.water), '1')
              : typedFrom('concentration asked for', Number(lye.percent), '%'),
          ]),
    ],
  });
};
