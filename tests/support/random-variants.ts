import fc from '#tests/support/property';
import { FATS } from '#lib/soap/fats/index';
import { decimal } from '#lib/work/formula/index';
import type { Entry, Formula, Lot, Preparation } from '#lib/work/formula/index';
import { entry, mass, share } from './formula';
import { cases, type Case } from './random-formula';

/** One thing more that a formula may say, put into a sound one; the case as it was where there is no room for it. */
type Variant = (one: Case, drawn: number) => Case;

const withEntries = (one: Case, change: (entry: Entry, at: number) => Entry): Case => ({
  ...one,
  formula: { ...one.formula, entries: one.formula.entries.map(change) },
});
const first = ({ formula }: Case, part: Entry['part']): Entry | undefined => formula.entries.find((entry) => entry.part === part);
const fatsOf = ({ formula }: Case): readonly Entry[] => formula.entries.filter(({ part }) => part === 'fat');
const onlySoda = ({ formula }: Case): boolean => formula.entries.filter(({ part }) => part === 'alkali').every(({ id }) => id === 'soda');
const prepared = (one: Case, ...more: readonly Preparation[]): Case => ({
  ...one,
  context: { ...one.context, preparations: [...one.context.preparations, ...more] },
});
const shelved = (one: Case, ...more: readonly Lot[]): Case => ({
  ...one,
  context: { ...one.context, lots: [...one.context.lots, ...more] },
});
const wish = (one: Case, wishes: Partial<Formula['wishes']>): Case => ({
  ...one,
  formula: { ...one.formula, wishes: { ...one.formula.wishes, ...wishes } },
});

const part = (material: string, percent: number) => ({ material, lot: null, percent: decimal(percent) });
/** As in the plain cases: not the wax that leaves a spoon of sugar no water. */
const OTHERS = FATS.filter(({ working }) => working.value > 80);
const other = (drawn: number): string => OTHERS[Math.floor(drawn * OTHERS.length)]?.id ?? 'olive';

/** The first oil as a masterbatch of itself, another oil and a masterbatch of two more. */
const masterbatch: Variant = (one, drawn) => {
  const fat = first(one, 'fat');
  if (fat?.material == null) return one;
  const inner: Preparation = { id: 'inner', name: 'inner', parts: [part(other(drawn / 2), 25), part('olive', 75)], note: null };
  const outer: Preparation = {
    id: 'outer',
    name: 'outer',
    parts: [part(fat.material, 60), part(other(drawn), 10), part('inner', 30)],
    note: null,
  };
  return prepared(
    withEntries(one, (entry) => (entry === fat ? { ...entry, material: 'outer', lot: null } : entry)),
    inner,
    outer,
  );
};

/** Soda as a stock lye of its own strength. */
const stockLye: Variant = (one, drawn) => {
  if (!onlySoda(one)) return one;
  const strength = 40 + 9 * drawn;
  const stock: Preparation = {
    id: 'stock',
    name: 'stock',
    parts: [part('sodium-hydroxide', strength), part('water', 100 - strength)],
    note: null,
  };
  return prepared(
    withEntries(one, (entry) => (entry.id === 'soda' ? { ...entry, material: 'stock', lot: null } : entry)),
    stock,
  );
};

/** Two fragrances as one blend of the oils. */
const blend: Variant = (one, drawn) => {
  const rest = one.formula.entries.filter(({ part: of }) => of !== 'fragrance');
  const two = [
    entry('top', 'fragrance', 'lavender-oil', share(decimal(20 + 60 * drawn), 'blend')),
    entry('base', 'fragrance', 'patchouli-oil', share(decimal(80 - 60 * drawn), 'blend')),
  ];
  const amount = share(decimal(0.5 + 2 * drawn));
  const blends = [{ id: 'blend', name: 'Blend', amount, entries: ['top', 'base'] }];
  return { ...one, formula: { ...one.formula, entries: [...rest, ...two], blends } };
};

/** The first of several oils stays at its weight while the others make up the size. */
const locked: Variant = (one, drawn) => {
  const [fat, ...others] = fatsOf(one);
  if (fat === undefined || others.length === 0 || !others.some(({ amount }) => amount?.kind === 'rest')) return one;
  // Beside a weight nothing can be "what is left" to a hundred.
  const last = share('1');
  return withEntries(one, (entry) => {
    // Of the smallest size, three bars of 40 g in thin lye, no more than 70 g is fat.
    if (entry === fat) return { ...entry, amount: mass(decimal(10 + 40 * drawn)), lock: 'mass' };
    return entry.part === 'fat' && entry.amount?.kind === 'rest' ? { ...entry, amount: last } : entry;
  });
};

const certificate = (more: object) => ({ date: '2026-01-30', supplier: 'Fellside Supplies', ...more });

/** An oil and the soda by certificates of their own. */
const certified: Variant = (one, drawn) => {
  const fat = FATS.find(({ id }) => id === first(one, 'fat')?.material);
  if (fat === undefined) return one;
  const { low, high } = fat.sv;
  const sv = decimal(Number((low + drawn * (high - low)).toFixed(2)));
  const lots: readonly Lot[] = [
    { id: 'lot-oil', mark: 'OIL 1', material: fat.id, certificate: certificate({ sv: { value: sv, u: '0.4' } }), files: [] },
    {
      id: 'lot-flakes',
      mark: 'SO 1',
      material: 'sodium-hydroxide',
      certificate: certificate({ purity: { value: decimal(96 + 4 * drawn), u: '0.2' } }),
      files: [],
    },
  ];
  const by = (entry: Entry): Entry => {
    if (entry.id === fat.id && entry.material === fat.id) return { ...entry, lot: 'lot-oil' };
    return entry.id === 'soda' && entry.material === 'sodium-hydroxide' ? { ...entry, lot: 'lot-flakes' } : entry;
  };
  return shelved(withEntries(one, by), ...lots);
};

/** The first oil by a fluid measure, where the others are weights. */
const fluid: Variant = (one, drawn) => {
  const fat = first(one, 'fat');
  if (fat?.amount?.kind !== 'mass' || fat.lock !== null) return one;
  const unit = (['ml', 'us-fl-oz', 'imperial-fl-oz'] as const)[Math.floor(3 * drawn)] ?? 'ml';
  const amount = { kind: 'volume', value: decimal(20 + 300 * drawn), unit } as const;
  return withEntries(one, (entry) => (entry === fat ? { ...entry, amount } : entry));
};

/** Water as so many times the pure alkali, where no acid brings water of its own. */
const ratio: Variant = (one, drawn) =>
  first(one, 'acid') === undefined ? { ...wish(one, { lye: { kind: 'ratio', water: decimal(2 + drawn) } }), ratio: 2 + drawn } : one;

/** A little beeswax among the oils. */
const wax: Variant = (one, drawn) => {
  const rest = fatsOf(one).find(({ amount }) => amount?.kind === 'rest');
  if (rest === undefined || fatsOf(one).length < 2 || fatsOf(one).some(({ id }) => id === 'beeswax')) return one;
  const at = one.formula.entries.indexOf(rest);
  const more = entry('beeswax', 'fat', 'beeswax', share(decimal(0.05 + 0.5 * drawn)));
  return { ...one, formula: { ...one.formula, entries: one.formula.entries.toSpliced(at, 0, more) } };
};

/** As the last thing a maker would type: nothing left over at all. */
const noSuperfat: Variant = (one, drawn) => ({
  ...wish(one, { superfat: drawn < 0.5 ? '0' : '0.5' }),
  superfat: drawn < 0.5 ? 0 : 0.005,
});

const VARIANTS: readonly Variant[] = [masterbatch, stockLye, blend, locked, certified, fluid, ratio, wax, noSuperfat];

/** Sound formulas with up to four of these in each. What is typed twice keeps the later. */
export const wideCases: fc.Arbitrary<Case> = fc
  .tuple(
    cases,
    fc.uniqueArray(fc.tuple(fc.nat(VARIANTS.length - 1), fc.double({ min: 0, max: 1, maxExcluded: true, noNaN: true })), {
      maxLength: 4,
      selector: ([at]) => at,
    }),
  )
  .map(([one, chosen]) => chosen.reduce((so, [at, drawn]) => VARIANTS[at]?.(so, Number(drawn.toFixed(4))) ?? so, one));
