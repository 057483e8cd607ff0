import { describe, expect, it } from 'vitest';
import { acidPortion } from '#lib/soap/acid';
import type { AlkaliPortion } from '#lib/soap/alkali';
import { liquidFor, lyeConcentration, lyeOf, lyeStrength } from '#lib/soap/lye/composition';
import { lyeDensity } from '#lib/soap/lye/density';
import { lyeHeatCapacity } from '#lib/soap/lye/heat-capacity';
import { heatOfSolution } from '#lib/soap/lye/heat-of-solution';
import { mixingPeak } from '#lib/soap/lye/mixing-peak';
import { saturation, solubility } from '#lib/soap/lye/solubility';

const WATER = { water: 1, fat: 0, sugar: 0, acid: 0 } as const;
const MILK = { water: 0.87, fat: 0.041, sugar: 0.045, acid: 0.0015 } as const;
const water = (mass: number) => ({ mass, fractions: WATER, acid: 'lactic' as const, fatSv: null });
const milk = (mass: number) => ({ mass, fractions: MILK, acid: 'lactic' as const, fatSv: 229 });
const soda = (mass: number, purity = 1): AlkaliPortion => ({ kind: 'NaOH', mass, purity });
const potash = (mass: number, purity = 0.9): AlkaliPortion => ({ kind: 'KOH', mass, purity });

describe('what is in the jug', () => {
  it('counts impurity and the water KOH carries as part of the whole', () => {
    const lye = lyeOf({ alkalis: [soda(100, 0.98), potash(50)], liquids: [water(250)] });
    expect(lye).toMatchObject({ naoh: 98, koh: 45, solution: 400 });
    expect(lye.water).toBeCloseTo(255, 9);
    expect(lye.other).toBeCloseTo(2, 9);
    expect(lyeConcentration(lye)).toBeCloseTo(143 / 400, 12);
    expect(lyeStrength(lye).naoh).toBeCloseTo(98 / 398, 12);
  });

  it('leaves the fat of a milk out of the solution and its sugar in', () => {
    const lye = lyeOf({ alkalis: [soda(100)], liquids: [milk(200)], acids: [acidPortion('lactic', 10, 0.8)], dissolved: 5 });
    expect(lye.solution).toBeCloseTo(100 + 200 * 0.959 + 10 + 5, 9);
    expect(lye.water).toBeCloseTo(174 + 2, 9);
  });

  it.each([
    ['water', WATER],
    ['milk', MILK],
  ] as const)('asks for as much %s as the wished concentration needs', (_, fractions) => {
    const alkalis = [soda(140, 0.98), potash(30)];
    const mass = liquidFor(0.33, alkalis, fractions);
    const lye = lyeOf({ alkalis, liquids: [{ mass, fractions, acid: 'lactic', fatSv: 229 }] });
    expect(lyeConcentration(lye)).toBeCloseTo(0.33, 12);
  });

  it('subtracts the water of a stock solution, and refuses one too weak', () => {
    const stock: AlkaliPortion = { kind: 'NaOH', mass: 200, purity: 0.5, restIsWater: 1 };
    expect(liquidFor(1 / 3, [stock], WATER)).toBeCloseTo(100, 9);
    expect(() => liquidFor(0.55, [stock], WATER)).toThrow(/weaker already/);
    expect(liquidFor(0.5, [stock], WATER)).toBeCloseTo(0, 9);
  });
});

/** % and g/cm³ at 20 °C, CRC Handbook 102nd ed. */
const CRC_KOH = [
  [1, 1.0068],
  [6, 1.0509],
  [10, 1.0873],
  [20, 1.1818],
  [34, 1.323],
  [50, 1.5024],
] as const;

const at = (naoh: number, koh: number): number => lyeDensity({ naoh, koh }, 30).value;

describe('lye density', () => {
  it.each(CRC_KOH)('says where KOH is in doubt: CRC at %d %% lies inside ± 2 u', (percent, published) => {
    const { value, u } = lyeDensity({ naoh: 0, koh: percent / 100 }, 20);
    expect(Math.abs(value / 1000 - published)).toBeLessThan((2 * u) / 1000);
  });

  it('lies between its two alkalis when they are mixed', () => {
    expect(at(0.15, 0.15)).toBeGreaterThan(at(0, 0.3));
    expect(at(0.15, 0.15)).toBeLessThan(at(0.3, 0));
    expect(at(0.3, 1e-12)).toBeCloseTo(at(0.3, 0), 6);
  });

  it('takes a stock of one half, whatever its last binary digit', () => {
    const stock: AlkaliPortion = { kind: 'NaOH', mass: 140.7, purity: 0.5, restIsWater: 1 };
    const { naoh, koh } = lyeStrength(lyeOf({ alkalis: [stock], liquids: [] }));
    expect(lyeDensity({ naoh: naoh + 1e-15, koh }, 20).value).toBeCloseTo(1525.3, 6);
  });

  it('joins its tables without a step', () => {
    for (let w = 0.005; w < 0.5; w += 0.001) {
      const slope =
        (lyeDensity({ naoh: w + 0.001 <= 0.5 ? w + 0.001 : 0.5, koh: 0 }, 55).value - lyeDensity({ naoh: w, koh: 0 }, 55).value) / 0.001;
      expect(slope, `at ${w}`).toBeGreaterThan(700);
      expect(slope, `at ${w}`).toBeLessThan(1250);
    }
  });

  it.each([
    [0.51, 20],
    [0.3, 9],
    [0.3, 86],
    [-0.1, 20],
    [Number.NaN, 20],
    [0.3, Number.NaN],
  ])('does not extrapolate: %d at %d °C', (w, t) => {
    expect(() => lyeDensity({ naoh: w, koh: 0 }, t)).toThrow(RangeError);
    expect(() => lyeDensity({ naoh: 0, koh: w }, t)).toThrow(RangeError);
  });
});

const doubt = (naoh: number, koh: number): number => {
  const { value, u } = lyeHeatCapacity({ naoh, koh }, 25);
  return u / value;
};

describe('heat of mixing', () => {
  const lye = { naoh: 333, koh: 0, water: 667 };

  it('gives lye strength its own heat, far from the −44.51 of infinite dilution', () => {
    expect(heatOfSolution('NaOH', 4.44).value).toBeGreaterThan(-38);
    expect(heatOfSolution('NaOH', 4.44).value).toBeLessThan(-34.43);
    expect(() => heatOfSolution('NaOH', 2.2)).toThrow(/not known above 42.5 %/);
    expect(heatOfSolution('NaOH', 1e6).value).toBe(-42.72);
  });

  it('rises with strength, falls with cold water, and far more with ice', () => {
    const warm = mixingPeak(lye, 20).value;
    expect(mixingPeak({ naoh: 300, koh: 0, water: 700 }, 20).value).toBeLessThan(warm);
    const cold = mixingPeak(lye, 5).value;
    expect(warm - cold).toBeGreaterThan(13);
    expect(warm - cold).toBeLessThan(15);
    // Melting 667 g takes 222 kJ of a solution of 3.5 kJ/K.
    expect(mixingPeak(lye, 0).value - mixingPeak({ ...lye, frozen: 667 }, 0).value).toBeCloseTo((667 * 333.55) / (1000 * 3.5), -1);
  });

  it('adds what acids give', () => {
    const moles = 0.3;
    const more = mixingPeak({ ...lye, acid: moles }, 20).value - mixingPeak(lye, 20).value;
    expect(more).toBeCloseTo((moles * 55_800) / (1000 * lyeHeatCapacity({ naoh: 0.333, koh: 0 }, 25).value), 6);
  });

  it('is an upper bound for KOH, and says how far it is in doubt', () => {
    const peak = mixingPeak({ naoh: 0, koh: 300, water: 700 }, 20);
    expect(peak.value).toBeGreaterThan(110);
    expect(peak.value).toBeLessThan(125);
    expect(peak.u).toBeGreaterThan(3);
  });

  it('doubts its heat capacity more where the fit has ended', () => {
    expect(doubt(0.31, 0)).toBeGreaterThan(doubt(0.3, 0));
    expect(doubt(0, 0.47)).toBeGreaterThan(doubt(0, 0.46));
    expect(doubt(0, 0.46)).toBeCloseTo(doubt(0, 0.3), 12);
    expect(doubt(0.01, 0)).toBeLessThan(0.004);
  });

  it('does not guess beyond its tables', () => {
    expect(() => mixingPeak({ naoh: 500, koh: 0, water: 500 }, 20)).toThrow(RangeError);
    expect(() => mixingPeak({ ...lye, frozen: 700 }, 0)).toThrow(/more ice than water/);
    expect(() => mixingPeak({ naoh: 0, koh: 0, water: 100 }, 20)).toThrow(RangeError);
    expect(() => mixingPeak(lye, Number.NaN)).toThrow(RangeError);
  });
});

describe('what crystallises', () => {
  it.each([
    ['the usual lye in a warm workshop', 'NaOH', 50, 20, 'dissolved'],
    ['half and half at 20 °C', 'NaOH', 100, 20, 'dissolved'],
    ['half and half in a cool workshop', 'NaOH', 100, 17, 'dissolved'],
    ['half and half in a cold shed', 'NaOH', 100, 10, 'not-known'],
    ['38 % below 15 °C, where hydrates form', 'NaOH', 61.3, 14, 'not-known'],
    ['weak lye at freezing', 'NaOH', 40, 0, 'dissolved'],
    ['the usual lye at freezing', 'NaOH', 50, 0, 'crystallises'],
    ['too much for 20 °C', 'NaOH', 120, 20, 'crystallises'],
    ['too much for 20 °C, still warm', 'NaOH', 120, 30, 'not-known'],
    ['potash at freezing', 'KOH', 90, 0, 'dissolved'],
    ['potash in the cold', 'KOH', 120, 10, 'crystallises'],
    ['potash warm', 'KOH', 120, 40, 'not-known'],
  ] as const)('%s: %s %d g in 100 g at %d °C is %s', (_, hydroxide, mass, celsius, kind) => {
    expect(solubility(hydroxide, mass, 100, celsius).kind).toBe(kind);
  });

  it('names the hydrates it warns of, from memory', () => {
    const answer = solubility('NaOH', 61.3, 100, 14);
    expect(answer).toMatchObject({ kind: 'not-known', source: { grade: 'memory' } });
    expect(answer.kind === 'not-known' && answer.note).toMatch(/hydrates/);
  });

  it('interpolates nothing', () => {
    expect(saturation('NaOH', 20)).toBe(109);
    expect(saturation('NaOH', 10)).toBeNull();
  });
});
