import { allergenThreshold } from '#lib/soap/fragrance';
import { sumOf } from '#lib/units/sum';
import type { Derivation, DerivedFrom } from '../derivation';
import { numberOf } from '../figure';
import type { Line } from '../lines';
import type { Planning } from '../warnings/index';
import { computedFrom, derivation, fromSource, n } from './shown';

/** What the certificates allow: of all fragrance, of each blend, and every allergen of the bar. */
export const fragranceDerivations = (planning: Planning): readonly Derivation[] => {
  const scents = planning.lines.filter(({ item }) => item.part === 'fragrance');
  if (scents.length === 0) return [];
  const { driest } = planning.figures.fragrance;
  return [
    derivation({
      id: 'driest',
      value: driest,
      unit: 'g',
      formula: 'batter − all its water: the least the bars can weigh',
      filled: `${n(planning.whole.batter)} − ${n(planning.figures.waterAfter)} = ${n(driest)} g`,
      inputs: [
        computedFrom('batter', planning.whole.batter, 'g', 'batter'),
        computedFrom('water after the reaction', planning.figures.waterAfter, 'g', 'water-after'),
      ],
    }),
    ...limit('fragrance-limit', scents, driest),
    ...most(planning, scents),
    ...planning.formula.blends.flatMap(({ id, entries }) => {
      const inBlend = scents.filter(({ item }) => entries.includes(item.entry.id));
      return inBlend.length === 0
        ? []
        : [weight(`blend:${id}`, inBlend), share(planning, id, inBlend), ...limit(`blend-limit:${id}`, inBlend, driest)];
    }),
    ...allergens(planning, scents),
  ];
};

const limitText = ({ item }: Line): string => item.found.lot?.certificate?.limit ?? '';

const certified = ({ item }: Line, name: string, value: number): DerivedFrom => {
  const certificate = item.found.lot?.certificate;
  return {
    name,
    value,
    unit: '%',
    source: `${certificate?.supplier ?? ''}, certificate of ${certificate?.date ?? ''}`,
    grade: 'certificate',
  };
};

const weight = (id: string, lines: readonly Line[]): Derivation => {
  const value = sumOf(lines, ({ figures }) => figures.grams);
  return derivation({
    id,
    value,
    unit: 'g',
    formula: 'Σ weight of each fragrance in it',
    filled: `${lines.map(({ figures }) => n(figures.grams)).join(' + ')} = ${n(value)} g`,
    inputs: lines.map(({ plan, figures }) => computedFrom(plan.material.name, figures.grams, 'g', `line:${plan.id}`)),
  });
};

const share = ({ whole }: Planning, id: string, lines: readonly Line[]): Derivation => {
  const grams = sumOf(lines, ({ figures }) => figures.grams);
  return derivation({
    id: `blend-share:${id}`,
    value: (100 * grams) / whole.batter,
    unit: '%',
    formula: 'weight of the blend ÷ batter',
    filled: `${n(grams)} g ÷ ${n(whole.batter)} g = ${n((100 * grams) / whole.batter, 4)} %`,
    inputs: [computedFrom('weight of the blend', grams, 'g', `blend:${id}`), computedFrom('batter', whole.batter, 'g', 'batter')],
  });
};

/** How much of all fragrance there may be, in these proportions. */
const most = ({ figures }: Planning, lines: readonly Line[]): readonly Derivation[] => {
  const { verdict } = figures.fragrance;
  if (verdict.kind === 'not-known' || !Number.isFinite(verdict.most)) return [];
  const grams = sumOf(lines, (line) => line.figures.grams);
  return [
    derivation({
      id: 'fragrance-most',
      value: verdict.most * grams,
      unit: 'g',
      formula: 'weight of all fragrance ÷ what the shares of their limits add up to',
      filled: `${n(grams)} g ÷ ${n(verdict.sum, 4)} = ${n(verdict.most * grams, 4)} g`,
      inputs: [
        ...lines.map((line) => computedFrom(line.plan.material.name, line.figures.grams, 'g', `line:${line.plan.id}`)),
        computedFrom('shares of their limits', verdict.sum, '1', 'fragrance-limit'),
      ],
    }),
  ];
};

/** Σ cᵢ/Lᵢ; nothing while a limit is not known. */
const limit = (id: string, lines: readonly Line[], driest: number): readonly Derivation[] => {
  const terms = lines.map((line) => ({ line, share: (100 * line.figures.grams) / driest, most: numberOf(limitText(line)) }));
  if (terms.some(({ most }) => most === null || most <= 0)) return [];
  const value = sumOf(terms, ({ share, most }) => share / (most ?? 1));
  return [
    derivation({
      id,
      value,
      unit: '1',
      formula: 'Σ share of the driest bar ÷ limit of its certificate; up to 1 is sufficient, not necessary',
      filled: `${terms.map(({ share, most }) => `${n(share, 3)} ÷ ${n(most ?? 0)}`).join(' + ')} = ${n(value, 3)}`,
      inputs: [
        computedFrom('bars with all water gone', driest, 'g', 'driest'),
        ...terms.flatMap(({ line, most }) => [
          computedFrom(line.plan.material.name, line.figures.grams, 'g', `line:${line.plan.id}`),
          certified(line, `limit of ${line.plan.material.name}`, most ?? Number.NaN),
        ]),
      ],
    }),
  ];
};

const allergens = ({ figures }: Planning, lines: readonly Line[]): readonly Derivation[] => {
  const { driest, allergens: all } = figures.fragrance;
  const threshold = allergenThreshold();
  return all.map(({ name, share }) => {
    const from = lines.flatMap((line) => {
      const percent = numberOf(line.item.found.lot?.certificate?.allergens?.find((one) => one.name === name)?.percent ?? '');
      return percent === null ? [] : [{ line, percent }];
    });
    return derivation({
      id: `allergen:${name}`,
      value: 100 * share,
      unit: '%',
      formula: 'Σ weight of the fragrance × its share of the allergen ÷ bars with all water gone',
      filled: `(${from.map(({ line, percent }) => `${n(line.figures.grams)} g × ${n(percent)} %`).join(' + ')}) ÷ ${n(driest)} g = ${n(100 * share, 3)} %`,
      inputs: [
        ...from.map(({ line, percent }) => certified(line, `${name} in ${line.plan.material.name}`, percent)),
        computedFrom('bars with all water gone', driest, 'g', 'driest'),
        fromSource('named on the label above', 100 * threshold.value, '%', threshold.source),
      ],
    });
  });
};
