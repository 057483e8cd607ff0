import { describe, expect, it } from 'vitest';
import { grams } from '#lib/units/mass';
import { CATALOGUE } from '#lib/work/formula/index';
import type { Lot, Material, Preparation } from '#lib/work/formula/index';
import { labelParts, type InMould, type LabelWorkshop } from '#lib/work/label/from-mould';
import type { MaterialClass } from '#lib/work/batch/plan';

const of = (id: string): Material => CATALOGUE.find((one) => one.id === id)!;
const inMould = (id: string, mass: number, kind: MaterialClass, lot: string | null = null): InMould => ({
  material: { id, name: id, class: kind },
  lot: lot === null ? null : { id: lot },
  mass: grams(mass),
  high: grams(mass),
});
const preparation = (id: string, parts: readonly (readonly [string, string])[]): Preparation => ({
  id,
  name: id,
  note: null,
  parts: parts.map(([material, percent]) => ({ material, lot: null, percent })),
});

const stock: Material = { ...of('sodium-hydroxide'), id: 'stock', name: 'Stock lye', form: 'solution' } as Material;
const lavender: Lot = {
  id: 'l1',
  mark: 'L 1',
  material: 'lavender-oil',
  files: [],
  certificate: {
    date: '2026-02-03',
    supplier: 's',
    allergens: [
      { name: 'Linalool', percent: '32' },
      { name: 'Odd', percent: '300' },
    ],
  },
};
const workshop = (more: Partial<LabelWorkshop> = {}, preparations: readonly Preparation[] = []): LabelWorkshop => ({
  material: (id) => (id === 'stock' ? stock : (CATALOGUE.find((one) => one.id === id) ?? null)),
  preparation: (id) => preparations.find((one) => one.id === id) ?? null,
  lot: (id) => (id === 'l1' ? lavender : null),
  names: () => null,
  ...more,
});
const told = (materials: readonly InMould[], shop: LabelWorkshop) =>
  labelParts(materials, shop).parts.map(({ inci, mass, role }) => [inci, mass / 1000, role]);

describe('what is in a mould, for its label', () => {
  it('bears the names that were typed, before those proposed from memory', () => {
    const materials = [inMould('olive', 400, 'liquid-oil'), inMould('coconut', 200, 'hard-oil')];
    const typed = workshop({ names: (id) => (id === 'olive' ? { inci: 'Typed Oil', saponifiedAs: 'Typed Soap' } : null) });
    expect(labelParts(materials, typed).parts.map(({ inci, saponifiedAs }) => [inci, saponifiedAs])).toEqual([
      ['Typed Oil', 'Typed Soap'],
      ['Cocos Nucifera Oil', 'Sodium Cocoate'],
    ]);
    expect(labelParts(materials, typed).proposed).toEqual(['coconut']);
  });

  it('is taken apart where it was prepared here, to the milligram', () => {
    const shop = workshop({}, [
      preparation('blend', [
        ['olive', '60'],
        ['colour', '40'],
      ]),
      preparation('colour', [
        ['castor', '66.6667'],
        ['red-clay', '33.3333'],
      ]),
    ]);
    const { parts } = labelParts([inMould('blend', 100.001, 'liquid-oil')], shop);
    expect(parts.map(({ material, role }) => [material, role])).toEqual([
      ['olive', 'fat'],
      ['castor', 'fat'],
      ['red-clay', 'colourant'],
    ]);
    expect(parts.reduce((sum, { mass }) => sum + mass, 0)).toBe(100_001);
  });

  it('ends where a preparation holds itself', () => {
    const shop = workshop({}, [preparation('loop', [['loop', '100']])]);
    expect(labelParts([inMould('loop', 10, 'liquid-oil')], shop).parts.map(({ mass }) => mass)).toEqual([10_000]);
  });

  it('is hydroxide and water where lye came in solution', () => {
    const shop = workshop({ lot: () => ({ ...lavender, certificate: { date: '', supplier: '', purity: { value: '33' } } }) });
    expect(told([inMould('stock', 200, 'hydroxide', 'x')], shop)).toEqual([
      [null, 66, 'alkali'],
      ['Aqua', 134, 'other'],
    ]);
  });

  it('holds the allergens of the lot it came from, and what may be in it counts whole', () => {
    const { parts } = labelParts([{ ...inMould('lavender-oil', 0, 'fragrance', 'l1'), mass: null, high: grams(20) }], workshop());
    expect(parts).toMatchObject([{ mass: 20_000, role: 'fragrance', allergens: { Linalool: 0.32 } }]);
    expect(parts[0]?.allergens).not.toHaveProperty('Odd');
  });

  it('is proposed as a composition of fragrance where it is none by itself, and says so', () => {
    const { parts, proposed } = labelParts([inMould('fell-scent', 5, 'fragrance'), inMould('lavender-oil', 5, 'fragrance')], workshop());
    expect(parts.map(({ inci }) => inci)).toEqual(['Parfum', 'Lavandula Angustifolia Oil']);
    expect(proposed).toContain('fell-scent');
  });

  it('has a role by its class where the workshop no longer knows it', () => {
    expect(told([inMould('gone', 5, 'colourant')], workshop())).toEqual([[null, 5, 'colourant']]);
  });
});
