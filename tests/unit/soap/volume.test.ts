import { describe, expect, it } from 'vitest';
import { allergensIn, fragranceLoad } from '#lib/soap/fragrance';
import { fatById } from '#lib/soap/fats/index';
import { batterVolume, fatDensity, loafRule, lyeComponent, otherComponent } from '#lib/soap/volume';
import { waterDensity } from '#lib/soap/lye/density-model';

const oil = (id: string, mass: number, celsius: number) => ({ mass, density: fatDensity(fatById(id).density, celsius) });

const batterAt = (t: number): number => batterVolume([oil('olive', 1000, t), lyeComponent(420, { naoh: 1 / 3, koh: 0 }, t)]).value;

describe('batter volume', () => {
  it('adds the components at pouring temperature', () => {
    const parts = [oil('olive', 1000, 40), lyeComponent(400, { naoh: 0.33, koh: 0 }, 40), otherComponent(30, 'fragrance')];
    const olive = 1000 / (0.911 - 0.00067 * 20);
    const { value, u } = batterVolume(parts);
    expect(value).toBeGreaterThan(olive + 400 / 1.36);
    expect(value).toBeCloseTo(olive + 400 / 1.3455 + 30 / 0.95, 0);
    expect(u / value).toBeGreaterThan(0.014);
    expect(u / value).toBeLessThan(0.02);
  });

  it('takes lye by its solution, which is tighter than water and hydroxide apart by some 38 cm³ to a kilogram of oils', () => {
    const soda = 140;
    const water = 280;
    // Solid NaOH 2.13 g/cm³ (CRC Handbook, from memory).
    const apart = soda / 2.13 + water / (waterDensity(40) / 1000);
    const together = batterVolume([lyeComponent(soda + water, { naoh: 1 / 3, koh: 0 }, 40)]).value;
    expect(apart - together).toBeGreaterThan(33);
    expect(apart - together).toBeLessThan(43);
  });

  it('gives 0.7 % for 10 °C', () => {
    expect(batterAt(45) / batterAt(35) - 1).toBeCloseTo(0.007, 3);
  });

  it('says the loaf rule has no source', () => {
    expect(loafRule(1000)).toMatchObject({ source: { grade: 'practice' } });
    expect(loafRule(1000).value).toBeCloseTo(692, 0);
  });

  it('refuses what cannot be', () => {
    expect(() => batterVolume([otherComponent(-1, 'clay')])).toThrow(RangeError);
    expect(() => fatDensity({ value: 0.9, celsius: 20, source: { text: 'x', grade: 'memory' } }, 150)).toThrow(RangeError);
    expect(() => batterVolume([{ mass: 1, density: { value: 0, u: 0, source: { text: 'x', grade: 'memory' } } }])).toThrow(RangeError);
  });
});

describe('fragrance in the finished bar', () => {
  const blend = [
    { name: 'wood', mass: 15, limit: 0.02, allergens: { linalool: 0.1, geraniol: 0.0005 } },
    { name: 'flower', mass: 6, limit: 0.015, allergens: { linalool: 0.2 } },
  ];

  it('adds share over limit, and says how much more there could be', () => {
    const load = fragranceLoad(blend, 1200);
    expect(load).toMatchObject({ kind: 'within' });
    expect(load.kind === 'within' && load.sum).toBeCloseTo(15 / 1200 / 0.02 + 6 / 1200 / 0.015, 12);
    expect(load.kind === 'within' && load.most).toBeCloseTo(1 / (0.625 + 1 / 3), 12);
  });

  it('goes over as the bar dries', () => {
    expect(fragranceLoad(blend, 1100).kind).toBe('over');
  });

  it('knows nothing of a blend with a limit missing, unless that one is not used', () => {
    const unknown = [...blend, { name: 'resin', mass: 1, limit: null }];
    expect(fragranceLoad(unknown, 1200)).toEqual({ kind: 'not-known', without: ['resin'] });
    expect(fragranceLoad([...blend, { name: 'resin', mass: 0, limit: null }], 1200).kind).toBe('within');
  });

  it('refuses a limit or a bar of nothing', () => {
    expect(() => fragranceLoad([{ name: 'x', mass: 1, limit: 0 }], 1000)).toThrow(/limit of x/);
    expect(() => fragranceLoad(blend, 0)).toThrow(RangeError);
    expect(() => fragranceLoad([{ name: 'x', mass: Number.NaN, limit: 0.1 }], 1000)).toThrow(RangeError);
  });

  it('adds an allergen over the blend and declares it above 0.01 %', () => {
    const shares = allergensIn(blend, 1200);
    expect(shares.map(({ name, declared }) => [name, declared])).toEqual([
      ['linalool', true],
      ['geraniol', false],
    ]);
    expect(shares[0]?.share).toBeCloseTo((1.5 + 1.2) / 1200, 12);
    expect(() => allergensIn([{ name: 'x', mass: 1, limit: null, allergens: { y: 1.2 } }], 100)).toThrow(/share of y/);
  });
});
