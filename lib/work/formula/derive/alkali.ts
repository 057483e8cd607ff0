import { pureMass } from '#lib/soap/alkali';
import { acidTake } from '#lib/soap/acid';
import { M_KOH, M_NAOH } from '#lib/soap/molar-mass';
import { sumOf } from '#lib/units/sum';
import { lyePerGram } from '../chemistry';
import type { Derivation, DerivedFrom } from '../derivation';
import { numberOf } from '../figure';
import type { Believed } from '../interval';
import { itemsOf } from '../model';
import type { PerGram } from '#lib/soap/poured/per-gram';
import { inJug } from '../per-gram';
import { spreadOf } from '../scales';
import type { Planning } from '../warnings/index';
import { acidFrom, combined, computedFrom, derivation, fromFigure, n, typedFrom, worthSaying } from './shown';

const MOLAR = { source: 'IUPAC/CIAAW conventional atomic weights', grade: 'standard' } as const;
export const KOH: DerivedFrom = { name: 'molar mass of KOH', value: M_KOH, unit: 'g/mol', ...MOLAR };
export const NAOH: DerivedFrom = { name: 'molar mass of NaOH', value: M_NAOH, unit: 'g/mol', ...MOLAR };

/** What these need of a plan; a card has as much. */
export type AlkaliFacts = Pick<Planning, 'balance' | 'model' | 'whole' | 'formula'> & { readonly lines?: Planning['lines'] };

/** Fat demand, acid demand, superfat and lye concentration, each from the one before. */
export const alkaliDerivations = (planning: AlkaliFacts, belief: Believed): readonly Derivation[] => [
  demand(planning, belief),
  ...acid(planning),
  superfat(planning, belief),
  concentration(planning),
];

const demand = ({ balance, model }: AlkaliFacts, { fats, interval }: Believed): Derivation => {
  const figures = model.items.flatMap(({ found }) => found.makeup.values.filter(({ what }) => what.startsWith('saponification value')));
  // superfat = 1 − net ÷ demand: a mole of demand moves it by net ÷ demand².
  const ofFats = interval.parts.filter(({ side }) => side === 'fats');
  const share = sumOf(ofFats, (part) => part.share);
  const net = balance.supply - balance.acid;
  return derivation({
    id: 'fat-demand',
    value: balance.demand,
    unit: 'mol',
    formula: 'D = Σ mass × SV ÷ 1000 ÷ M(KOH)',
    filled: `(${fats.map(({ mass, sv }) => `${n(mass)} g × ${n(sv)}`).join(' + ')}) mg/g ÷ 1000 ÷ ${n(M_KOH)} g/mol = ${n(balance.demand)} mol, ${n(balance.demand * M_NAOH)} g of NaOH`,
    inputs: [...figures.map(({ what, name, figure }) => fromFigure(spoken(what, name), figure)), KOH, NAOH],
    u: net > 0 ? (interval.u * Math.sqrt(share) * balance.demand ** 2) / net : null,
    parts: worthSaying(ofFats.map(({ what, of, share: one }) => ({ what: nameOf(what, fats[of]?.name ?? ''), share: one / (share || 1) }))),
  });
};

/** "saponification value of its fat", of Goat's milk: "saponification value of the fat of Goat's milk". */
export const spoken = (what: string, name: string): string =>
  what.endsWith(' of its fat') ? `${what.slice(0, -' of its fat'.length)} of the fat of ${name}` : `${what} of ${name}`;

const nameOf = (what: string, name: string): string => `${what === 'sv' ? 'saponification value' : what} of ${name}`;

const acid = ({ balance, whole, model }: AlkaliFacts): readonly Derivation[] => {
  if (balance.acid === 0) return [];
  const each = model.items.flatMap(({ found }, at) => {
    const acids = whole.each[at]?.acids ?? [];
    const values = found.makeup.values.filter(({ what }) => what === 'strength' || what === 'acid');
    return acids.map((one, index) => ({ ...one, name: values[index]?.name ?? found.name, value: values[index] }));
  });
  return [
    derivation({
      id: 'acid-demand',
      value: balance.acid,
      unit: 'mol',
      formula: 'A = Σ mass × strength × moles of hydroxide to a gram of the acid',
      filled: `${each.map((one) => `${n(one.mass)} g × ${n(one.strength)} × ${n(one.molesPerGram)} mol/g`).join(' + ')} = ${n(acidTake(whole.all.acids))} mol`,
      inputs: each.flatMap((one) => [
        computedFrom(`mass of the acid in ${one.name}`, one.mass, 'g'),
        ...(one.value === undefined ? [] : [fromFigure(spoken(one.value.what, one.name), one.value.figure)]),
        {
          name: `hydroxide to a gram of it, ${one.name}`,
          value: one.molesPerGram,
          unit: 'mol/g',
          ...MOLAR,
          source: `stoichiometry, ${MOLAR.source}`,
        },
      ]),
    }),
  ];
};

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
      ...acidFrom(balance.acid),
      computedFrom('pure alkali', balance.supply, 'mol'),
      ...purities.map(({ name, figure }) => fromFigure(`purity of ${name}`, figure)),
      ...(wishes.superfat === null ? [] : [typedFrom('superfat asked for', numberOf(wishes.superfat) ?? Number.NaN, '%')]),
    ],
    u: 100 * interval.u,
    parts: worthSaying(
      interval.parts.map(({ what, side, of, share }) => ({
        what: nameOf(what, (side === 'fats' ? fats : alkalis)[of]?.name ?? ''),
        share,
      })),
    ),
  });
};

/** What purities and the scales of hydroxide and liquids leave open; a fraction. */
const concentrationDoubt = ({ balance, model, whole, lines = [] }: AlkaliFacts): Pick<Derivation, 'u' | 'parts'> =>
  combined(
    model.items.flatMap((item, at) => {
      if (!inJug(item)) return [];
      const scale = lines.find((line) => line.at === at)?.scale ?? null;
      const spread = scale === null ? 0 : (spreadOf(scale) ?? 0) / 1000;
      const purity = sumOf(whole.each[at]?.alkalis ?? [], ({ mass, uPurity }) => mass * uPurity) / balance.solution;
      return [
        { what: `purity of ${item.found.name}`, u: 100 * purity },
        { what: `weight of ${item.found.name}`, u: 100 * Math.abs(lyePerGram(balance, balance.per[at] as PerGram)) * spread },
      ];
    }),
  );

const concentration = (planning: AlkaliFacts): Derivation => {
  const { balance, formula, model, whole } = planning;
  const { lye } = formula.wishes;
  const jug = [...itemsOf(model, 'alkali'), ...itemsOf(model, 'liquid')].map(({ found }) => found.name);
  const purities = model.items.flatMap(({ found }) => found.makeup.values.filter(({ what }) => what === 'purity'));
  return derivation({
    id: 'lye-concentration',
    value: 100 * balance.concentration,
    unit: '%',
    formula: 'c = pure alkali ÷ whole solution (fat of a milk left out)',
    filled: `${n(sumOf(whole.all.alkalis, pureMass))} g ÷ ${n(balance.solution)} g = ${n(100 * balance.concentration, 4)} %`,
    inputs: [
      computedFrom('pure alkali', balance.pure, 'g'),
      computedFrom(`solution of ${jug.join(', ')}`, balance.solution, 'g'),
      ...purities.map(({ name, figure }) => fromFigure(`purity of ${name}`, figure)),
      ...(lye === null
        ? []
        : [
            lye.kind === 'ratio'
              ? typedFrom('water to pure alkali', numberOf(lye.water) ?? Number.NaN, '1')
              : typedFrom('concentration asked for', numberOf(lye.percent) ?? Number.NaN, '%'),
          ]),
    ],
    ...concentrationDoubt(planning),
  });
};
