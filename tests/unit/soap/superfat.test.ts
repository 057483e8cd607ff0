import { describe, expect, it } from 'vitest';
import { acidPortion, acidTake } from '#lib/soap/acid';
import { alkaliSupply, pureMass, type AlkaliPortion } from '#lib/soap/alkali';
import { partsOf } from '#lib/soap/liquid';
import { alkaliFor, naohShare, sensitivity, superfat } from '#lib/soap/superfat';

const SODA = { naohShare: 1, naohPurity: 1, kohPurity: 1 } as const;
/** Worked by hand: demand 148.11 g NaOH. */
const FATS = [
  { mass: 280, sv: 257 },
  { mass: 120, sv: 185 },
  { mass: 400, sv: 190 },
  { mass: 200, sv: 188 },
];

describe('superfat', () => {
  it('asks for the alkali a hand calculation asks for', () => {
    const [soda] = alkaliFor(0.05, FATS, [], SODA);
    expect(soda?.mass).toBeCloseTo(140.7, 1);
    expect(superfat({ fats: FATS, alkalis: [{ kind: 'NaOH', mass: 140.7, purity: 1 }], acids: [] })).toBeCloseTo(0.05, 4);
  });

  it('weighs more of an impure alkali, as much more as it is impure', () => {
    const pure = alkaliFor(0.05, FATS, [], SODA)[0]?.mass ?? 0;
    const sold = alkaliFor(0.05, FATS, [], { ...SODA, naohPurity: 0.98 })[0];
    expect(sold?.mass).toBeCloseTo(pure / 0.98, 9);
    expect(sold === undefined ? 0 : pureMass(sold)).toBeCloseTo(pure, 9);
  });

  it('is below zero when lye is left over', () => {
    expect(superfat({ fats: FATS, alkalis: [{ kind: 'NaOH', mass: 150, purity: 1 }], acids: [] })).toBeLessThan(0);
  });

  it('keeps acid apart: as a share of the whole demand, 20 g of citric acid a kilogram would leave 5.4 % at "5 %"', () => {
    const acids = [acidPortion('citric-monohydrate', 20)];
    const [right] = alkaliFor(0.05, FATS, acids, SODA);
    expect(superfat({ fats: FATS, alkalis: right === undefined ? [] : [right], acids })).toBeCloseTo(0.05, 12);
    const noAcid = alkaliFor(0, FATS, acids, SODA)[0]?.mass ?? 0;
    const misstated: AlkaliPortion = { kind: 'NaOH', mass: 0.95 * noAcid, purity: 1 };
    expect(superfat({ fats: FATS, alkalis: [misstated], acids })).toBeCloseTo(0.054, 3);
  });

  it('splits two alkalis by moles, each with its own purity', () => {
    const alkalis = alkaliFor(0.03, FATS, [], { naohShare: 0.6, naohPurity: 0.985, kohPurity: 0.9 });
    expect(alkalis.map(({ kind }) => kind)).toEqual(['NaOH', 'KOH']);
    expect(naohShare(alkalis)).toBeCloseTo(0.6, 12);
    expect(superfat({ fats: FATS, alkalis, acids: [] })).toBeCloseTo(0.03, 12);
  });

  it('takes a stock solution as an alkali of its strength', () => {
    const stock: AlkaliPortion = { kind: 'NaOH', mass: 281.4, purity: 0.5, restIsWater: 1 };
    expect(superfat({ fats: FATS, alkalis: [stock], acids: [] })).toBeCloseTo(0.05, 4);
  });

  it('counts the fat and the acid of a milk', () => {
    const milk = partsOf({ mass: 300, fractions: { water: 0.87, fat: 0.041, sugar: 0.045, acid: 0.0015 }, acid: 'lactic', fatSv: 229 });
    expect(milk.fat?.mass).toBeCloseTo(12.3, 9);
    expect(milk.acid === null ? 0 : acidTake([milk.acid])).toBeCloseTo(0.45 / 90.078, 9);
    const alkalis = [{ kind: 'NaOH' as const, mass: 140.7, purity: 1 }];
    const withMilk = superfat({
      fats: [...FATS, ...(milk.fat === null ? [] : [milk.fat])],
      alkalis,
      acids: milk.acid === null ? [] : [milk.acid],
    });
    // 12.3 g of SV 229 is 2.008 g of NaOH on 148.11, the acid another 0.2.
    expect(withMilk).toBeCloseTo(1 - (140.7 - 0.2) / 150.118, 4);
  });

  it('says what a gram too much does: the slope of superfat itself', () => {
    const charge = { fats: FATS, alkalis: alkaliFor(0.05, FATS, [], SODA), acids: [acidPortion('lactic', 1, 0.8)] };
    const slopes = sensitivity(charge);
    const step = 1e-4;
    const bumped = <T extends { readonly mass: number }>(all: readonly T[], at: number): T[] =>
      all.map((one, i) => (i === at ? { ...one, mass: one.mass + step } : one));
    const slope = (changed: Partial<typeof charge>): number => (superfat({ ...charge, ...changed }) - superfat(charge)) / step;
    slopes.perGramOfFat.forEach((s, i) => expect(s).toBeCloseTo(slope({ fats: bumped(FATS, i) }), 8));
    expect(slopes.perGramOfAlkali[0]).toBeCloseTo(slope({ alkalis: bumped(charge.alkalis, 0) }), 8);
    expect(slopes.perGramOfAcid[0]).toBeCloseTo(slope({ acids: bumped(charge.acids, 0) }), 8);
    // Points of superfat a gram, on a kilogram of fats.
    expect(100 * (slopes.perGramOfAlkali[0] ?? 0)).toBeCloseTo(-0.675, 3);
    expect(100 * (slopes.perGramOfFat[0] ?? 0)).toBeCloseTo(0.118, 2);
  });

  it('counts the whole strength of lactic acid, and its water apart', () => {
    expect(acidTake([acidPortion('lactic', 100, 0.88)]) * 39.99676928).toBeCloseTo(0.88 * 44.40237, 4);
    expect(acidTake([acidPortion('citric-monohydrate', 210.138)])).toBeCloseTo(3, 9);
  });

  it('needs some fat, and some alkali for a share', () => {
    expect(() => superfat({ fats: [], alkalis: [], acids: [] })).toThrow(/at least one fat/);
    expect(() => naohShare([])).toThrow(/some alkali/);
    expect(alkaliSupply([])).toBe(0);
  });
});
