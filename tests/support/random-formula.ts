import fc from '#tests/support/property';
import { FATS } from '#lib/soap/fats/index';
import { LIQUIDS } from '#lib/soap/liquid';
import { CATALOGUE, decimal, typed } from '#lib/work/formula/index';
import type { Amount, Entry, Formula, Material, PlanContext, Size } from '#lib/work/formula/index';
import { entry, formula, mass, REST, share, workshop } from './formula';

/** A sound formula with the workshop it is planned in, and what was asked as fractions. */
export interface Case {
  readonly formula: Formula;
  readonly context: PlanContext;
  readonly superfat: number;
  /** Of the solution; where `ratio` is said, that counts. */
  readonly lye: number;
  /** Grams of water to one of pure alkali. */
  readonly ratio?: number;
}

const between = (min: number, max: number, digits = 3) =>
  fc.double({ min, max, noNaN: true }).map((value) => Number(value.toFixed(digits)));
/** What pours: of dry milk or honey more than half is no water, and at 60 % of the liquid the lye is past every table, rightly refused. */
const liquids = LIQUIDS.filter(({ fractions }) => fractions.fat < 0.3 && fractions.water > 0.5);
/** All but one wax that takes so little lye that a spoon of sugar in it leaves no water to speak of: no table covers that, rightly refused. */
const fats = FATS.filter(({ working }) => working.value > 80);
const ACIDS = ['citric-anhydrous-acid', 'citric-monohydrate-acid', 'tartaric-acid', 'malic-acid'] as const;
const FRAGRANCES = ['lavender-oil', 'rosemary-oil', 'patchouli-oil'] as const;

/** So many shares that come to 100 exactly, the last as what is left. */
const sharesOf = (weights: readonly number[]): readonly Amount[] => {
  const sum = weights.reduce((a, b) => a + b, 0);
  return weights.map((weight, at) => (at === weights.length - 1 ? REST : share(((99 * weight) / sum).toFixed(3))));
};

const fatEntries = fc
  .tuple(
    fc.uniqueArray(fc.constantFrom(...fats), { minLength: 1, maxLength: 6, selector: ({ id }) => id }),
    fc.array(between(1, 100), { minLength: 6, maxLength: 6 }),
    fc.boolean(),
  )
  .map(([chosen, weights, inMasses]): readonly Entry[] => {
    const amounts = inMasses ? weights.map((one) => mass(decimal(10 * one))) : sharesOf(weights.slice(0, chosen.length));
    return chosen.map(({ id }, at) => entry(id, 'fat', id, amounts[at] ?? REST));
  });

const alkaliEntries = fc.oneof(
  fc.constant([entry('soda', 'alkali', 'sodium-hydroxide', REST)]),
  fc.constant([entry('potash', 'alkali', 'potassium-hydroxide', REST)]),
  between(1, 99).map((part) => [
    entry('soda', 'alkali', 'sodium-hydroxide', share(decimal(part), 'hydroxide')),
    entry('potash', 'alkali', 'potassium-hydroxide', REST),
  ]),
);

const liquidEntries = fc
  .tuple(fc.constantFrom(...liquids), between(5, 60))
  .map(([{ id }, part]) =>
    id === 'water'
      ? [entry('water', 'liquid', 'water', REST)]
      : [entry('milk', 'liquid', id, share(decimal(part), 'liquid')), entry('water', 'liquid', 'water', REST)],
  );

const more = fc.tuple(
  fc.option(fc.tuple(fc.constantFrom(...ACIDS), between(0.1, 1)), { nil: null }),
  fc.option(fc.tuple(fc.constantFrom(...FRAGRANCES), between(0.2, 4), fc.constantFrom('fats' as const, 'batter' as const)), { nil: null }),
  fc.option(fc.tuple(fc.constantFrom('kaolin', 'sugar', 'salt', 'ground-oats'), between(0.2, 1)), { nil: null }),
);

const sizes: fc.Arbitrary<Size> = fc.oneof(
  between(200, 20_000).map((value): Size => ({ kind: 'fats', value: decimal(value), unit: 'g' })),
  between(300, 20_000).map((value): Size => ({ kind: 'batch', value: decimal(value), unit: 'g' })),
  fc
    .tuple(fc.integer({ min: 3, max: 100 }), between(40, 200))
    .map(([count, value]): Size => ({ kind: 'bars', count, value: decimal(value), unit: 'g' })),
  fc.constant<Size>({ kind: 'moulds' }),
);

const pure = (id: string, percent: number): Material => {
  const known = CATALOGUE.find((one) => one.id === id);
  if (known?.kind !== 'alkali') throw new Error(`no alkali ${id}`);
  return { ...known, origin: 'maker', purity: typed(decimal(percent), '%') };
};

export const cases: fc.Arbitrary<Case> = fc
  .tuple(fatEntries, alkaliEntries, liquidEntries, more, sizes, between(0, 20), between(20, 35), between(95, 100), between(85, 100))
  .map(([fats, alkalis, wet, [acid, fragrance, extra], size, superfat, lye, naoh, koh]) => ({
    formula: formula({
      entries: [
        ...fats,
        ...alkalis,
        ...wet,
        ...(acid === null ? [] : [entry('acid', 'acid', acid[0], share(decimal(acid[1])))]),
        ...(fragrance === null ? [] : [entry('scent', 'fragrance', fragrance[0], share(decimal(fragrance[1]), fragrance[2]))]),
        ...(extra === null ? [] : [entry('extra', 'extra', extra[0], share(decimal(extra[1])))]),
      ],
      wishes: { superfat: decimal(superfat), lye: { kind: 'concentration', percent: decimal(lye) } },
      size,
      moulds: [
        { mould: 'short-loaf', count: 2, fill: '90' },
        { mould: 'leaf', count: 1, fill: '80' },
      ],
    }),
    context: workshop({ materials: [...workshop().materials, pure('sodium-hydroxide', naoh), pure('potassium-hydroxide', koh)] }),
    superfat: superfat / 100,
    lye: lye / 100,
  }));
