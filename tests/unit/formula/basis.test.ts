import { describe, expect, it } from 'vitest';
import type { PlanBasis } from '#lib/work/batch/plan';
import { plan as planSchema } from '#lib/work/batch/upcast/plan';
import { entry, formula, planned, REST, share, SODA, WATER, workshop } from '#tests/support/formula';
import { RICH, RICH_WORKSHOP } from '#tests/support/rich-formula';

const basisOf = (...of: Parameters<typeof planned>): PlanBasis => {
  const { plan } = planned(...of);
  expect(planSchema.safeParse(plan).success).toBe(true);
  if (plan.basis === undefined) throw new Error('a computed plan has a basis');
  return plan.basis;
};
const of = (basis: PlanBasis, line: string): ReadonlyMap<string, readonly [string, string]> =>
  new Map(basis.values.filter((one) => String(one.line) === line).map(({ what, value, source }) => [what, [value, source]]));

describe('what a plan freezes beside its weights', () => {
  const basis = basisOf(RICH, RICH_WORKSHOP);

  it('certificates whole: allergens, limit and whose they are', () => {
    const lavender = of(basis, 'lavender');
    const source = 'Fellside Supplies, certificate of 2026-01-30';
    expect(lavender.get('allergen: Linalool')).toEqual(['32', source]);
    expect(lavender.get('limit in the finished bar')).toEqual(['6', source]);
    expect(lavender.get('certificate of')).toEqual(['2026-01-30', 'Fellside Supplies']);
  });

  it('everything the catalogue says of an oil, so that another edition of it changes nothing here', () => {
    const olive = of(basis, 'olive');
    for (const what of ['saponification value', 'density', 'density stated at', 'iodine value', 'unsaponifiable', 'fatty acid 18:1'])
      expect(olive.get(what)?.[0], what).toMatch(/^\d+(\.\d+)?$/);
  });

  it('moulds as they were measured, how many and how full, what stays behind, and the allergens of the bar', () => {
    const worked = new Map(basis.worked.map(({ what, value }) => [what, value]));
    const { figures, sizing } = planned(RICH, RICH_WORKSHOP);
    expect(Number(worked.get('mould to the brim: short loaf'))).toBeCloseTo(sizing?.moulds[0]?.brim.value ?? Number.NaN, 6);
    expect(worked.get('stays in the pot')).toBe(String(sizing?.residue));
    expect(worked.get('lost in pouring')).toBe('0.5');
    const [first] = figures.fragrance.allergens;
    expect(Number(worked.get(`allergen in the driest bar: ${first?.name}`))).toBeCloseTo(100 * (first?.share ?? Number.NaN), 9);
    expect(basis.asked).toContainEqual(expect.objectContaining({ what: 'moulds: short loaf', value: '1' }));
    expect(basis.asked).toContainEqual(expect.objectContaining({ what: 'mould filled to: short loaf', value: '92' }));
  });

  it('what a masterbatch was made of, down to the oils and their lots', () => {
    const parts = [
      { material: 'olive', lot: null, percent: '70' },
      { material: 'coconut', lot: 'lot-coconut-09', percent: '30' },
    ];
    const context = workshop({ preparations: [...workshop().preparations, { id: 'two', name: 'Two oils', parts, note: null }] });
    const entries = [entry('base', 'fat', 'two', share('60')), entry('castor', 'fat', 'castor', REST), WATER, SODA];
    const { values } = basisOf(formula({ entries, size: { kind: 'fats', value: '1000', unit: 'g' } }), context);
    const base = values.filter(({ line }) => String(line) === 'base');
    expect(base.filter(({ what }) => what === 'part of Two oils').map(({ value }) => value)).toEqual(['70', '30']);
    const iodine = base.filter(({ what }) => what === 'iodine value');
    expect(iodine.map(({ material, lot }) => [material, lot])).toEqual([
      ['olive', null],
      ['coconut', 'lot-coconut-09'],
    ]);
  });

  it('says each value once', () => {
    const keys = basis.values.map(({ line, material, lot, what }) => JSON.stringify([line, material, lot, what]));
    expect(new Set(keys).size).toBe(keys.length);
  });
});
