import { describe, expect, it } from 'vitest';
import { mg } from '#lib/units/mass';
import { labelAllergens } from '#lib/work/label/allergens';
import { ingredientList } from '#lib/work/label/ingredients';
import type { LabelPart, LabelRole, Naming } from '#lib/work/label/parts';
import { chance } from '#tests/support/model/chance';

const part = (name: string, grams: number, role: LabelRole = 'fat', more: Partial<LabelPart> = {}): LabelPart => ({
  material: name,
  name,
  inci: `${name} INCI`,
  saponifiedAs: role === 'fat' ? `Sodium ${name}ate` : null,
  mass: mg(Math.round(grams * 1000)),
  role,
  allergens: {},
  ...more,
});
const names = (parts: readonly LabelPart[], naming: Naming = 'as-added', finished = 1000): readonly string[] =>
  ingredientList(parts, {
    naming,
    finished: mg(finished * 1000),
    bound: true,
    allergens: labelAllergens([{ parts, finished: mg(finished * 1000) }]),
  }).items.map(({ name }) => name);

const ROLES: readonly LabelRole[] = ['fat', 'fat', 'fat', 'alkali', 'other', 'fragrance', 'colourant'];

/** A batch of any make: names that two materials share, colourants heavier than oils, traces, and the very same mass twice. */
const anyBatch = (uniform: () => number): readonly LabelPart[] =>
  Array.from({ length: 3 + Math.floor(uniform() * 15) }, (_, at) => {
    const role = ROLES[Math.floor(uniform() * ROLES.length)]!;
    const grams = uniform() < 0.2 ? Math.ceil(uniform() * 5) : 1000 * uniform() ** 4;
    const shared = uniform() < 0.2 ? `x${Math.floor(uniform() * 3)}` : `m${at}`;
    return part(`${shared} ${role}`, grams, role, { material: `id${at}` });
  });

/** Told anew, plainly: what has one name is added up, the heavier stands before the lighter, what colours stands at the end. */
const plainly = (parts: readonly LabelPart[]): readonly string[] => {
  const sums: Record<string, number> = {};
  const colours: Record<string, boolean> = {};
  for (const { inci, mass, role } of parts) {
    if (mass === 0) continue;
    sums[inci!] = (sums[inci!] ?? 0) + mass;
    colours[inci!] = role === 'colourant';
  }
  const sorted = Object.keys(sums);
  for (let i = 0; i < sorted.length; i += 1)
    for (let j = 0; j + 1 < sorted.length; j += 1) {
      const [a, b] = [sorted[j]!, sorted[j + 1]!];
      const wrong = colours[a] === colours[b] ? sums[a]! < sums[b]! || (sums[a] === sums[b] && a > b) : colours[a]! && !colours[b];
      if (wrong) [sorted[j], sorted[j + 1]] = [b, a];
    }
  return sorted;
};

const poured = (shea: number): readonly LabelPart[] => [part('olive', 400), part('coconut', 210), part('shea', shea), part('castor', 60)];

describe('the list of ingredients', () => {
  it('of 1,000 random batches is that of a plain sort', () => {
    const uniform = chance(11);
    for (let batch = 0; batch < 1000; batch += 1) {
      const parts = anyBatch(uniform);
      expect(names(parts)).toEqual(plainly(parts));
    }
  });

  it('moves what was poured over up a place', () => {
    expect(names(poured(200))).toEqual(['olive INCI', 'coconut INCI', 'shea INCI', 'castor INCI']);
    expect(names(poured(211))).toEqual(['olive INCI', 'shea INCI', 'coconut INCI', 'castor INCI']);
  });

  it('tells soap by its names, and leaves bound hydroxide out', () => {
    const parts = [part('olive', 400), part('lye', 60, 'alkali'), part('water', 120, 'other'), part('glycerin', 42, 'formed')];
    expect(names(parts, 'as-soap')).toEqual(['Sodium oliveate', 'water INCI', 'glycerin INCI']);
    expect(names(parts)).toEqual(['olive INCI', 'water INCI', 'lye INCI']);
    const heavy = ingredientList(parts, { naming: 'as-soap', finished: mg(500_000), bound: false, allergens: [] });
    expect(heavy.items.map(({ name }) => name)).toContain('lye INCI');
    expect(ingredientList(parts, { naming: 'as-soap', finished: mg(500_000), bound: true, allergens: [] }).leftOut).toEqual(['lye']);
  });

  it('says what has no name yet and shows it by the workshop’s own', () => {
    const list = ingredientList([part('olive', 400, 'fat', { inci: ' ' }), part('coconut', 200)], {
      naming: 'as-added',
      finished: mg(500_000),
      bound: true,
      allergens: [],
    });
    expect(list.items.map(({ name }) => name)).toEqual(['olive', 'coconut INCI']);
    expect(list.unnamed).toEqual(['olive']);
  });

  it('marks what is below one per cent, and puts colourants last however heavy', () => {
    const { items } = ingredientList([part('olive', 900), part('clay', 80, 'colourant'), part('silk', 5, 'other')], {
      naming: 'as-added',
      finished: mg(900_000),
      bound: true,
      allergens: [],
    });
    expect(items.map(({ name, group }) => [name, group])).toEqual([
      ['olive INCI', 'main'],
      ['silk INCI', 'minor'],
      ['clay INCI', 'colourant'],
    ]);
  });
});

const scent = (grams: number, allergens: Readonly<Record<string, number>>, name = 'rosewood'): LabelPart =>
  part(name, grams, 'fragrance', { allergens });
const scented = (share: number): readonly LabelPart[] => [part('olive', 1000), scent(10, { Linalool: share })];

describe('allergens of the certificates', () => {
  it('are named at or over a hundredth of a per cent of the finished bar', () => {
    expect(names(scented(0.0101))).toContain('Linalool');
    expect(names(scented(0.01))).toContain('Linalool');
    expect(names(scented(0.0099))).not.toContain('Linalool');
  });

  it('add up over fragrances, however they are spelled', () => {
    const parts = [part('olive', 1000), scent(10, { Linalool: 0.006 }), scent(10, { LINALOOL: 0.006 }, 'bay')];
    expect(names(parts).filter((name) => name.toLowerCase() === 'linalool')).toHaveLength(1);
  });

  it('grow stronger as the bar dries', () => {
    const parts = [part('olive', 1000), scent(10, { Linalool: 0.009 })];
    expect(names(parts, 'as-added', 1000)).not.toContain('Linalool');
    expect(names(parts, 'as-added', 880)).toContain('Linalool');
  });
});
