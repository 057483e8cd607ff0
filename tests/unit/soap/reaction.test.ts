import { describe, expect, it } from 'vitest';
import { acidPortion } from '#lib/soap/acid';
import { react, type Batter } from '#lib/soap/reaction';
import { alkaliFor } from '#lib/soap/superfat';
import { theoreticalSv } from '#lib/soap/theory';

const TRILAURIN = { mass: 639.015, sv: theoreticalSv({ '12:0': 100 }) };
const soda = (moles: number) => ({ kind: 'NaOH' as const, mass: moles * 39.99676928, purity: 1 });
const batter = (given: Partial<Batter>): Batter => ({ fats: [], alkalis: [], acids: [], water: 0, inert: 0, ...given });

describe('what the batter becomes', () => {
  it('one mole of trilaurin and three of NaOH: three of sodium laurate and one of glycerol', () => {
    const after = react(batter({ fats: [TRILAURIN], alkalis: [soda(3)], water: 250 }));
    expect(after.soap).toBeCloseTo(3 * 222.304, 1);
    expect(after.glycerol).toBeCloseTo(92.094, 6);
    expect(after.freeFat).toBeCloseTo(0, 6);
    expect(after.freeAlkali).toBeCloseTo(0, 6);
    expect(after.water).toBe(250);
    expect(after.sodiumShare).toBe(1);
  });

  it('leaves the superfat as fat, and lye-heavy leaves alkali', () => {
    const short = react(batter({ fats: [TRILAURIN], alkalis: [soda(2.85)] }));
    expect(short.freeFat).toBeCloseTo(0.05 * 639.015, 6);
    expect(short.freeAlkali).toBe(0);
    const heavy = react(batter({ fats: [TRILAURIN], alkalis: [soda(3.1)] }));
    expect(heavy.freeAlkali).toBeCloseTo(0.1 * 39.99676928, 6);
  });

  it('a free acid gives water and no glycerol', () => {
    const fat = { mass: 200.322, sv: theoreticalSv({ '12:0': 100 }, 'free-acid'), kind: 'free-acid' as const };
    const after = react(batter({ fats: [fat], alkalis: [soda(1)] }));
    expect(after.glycerol).toBe(0);
    expect(after.water).toBeCloseTo(18.015, 6);
    expect(after.soap).toBeCloseTo(222.304, 2);
  });

  it('a wax gives alcohol and no glycerol', () => {
    const jojoba = { mass: 606, sv: 92.58, kind: 'wax' as const, unsaponifiable: 0.5 };
    const after = react(batter({ fats: [jojoba], alkalis: [soda(1)] }));
    expect(after.glycerol).toBe(0);
    expect(after.unsaponifiable).toBe(303);
    expect(after.soap).toBeCloseTo(303 + 40, 0);
  });

  it('acid takes its alkali first and leaves a salt and water', () => {
    const acids = [acidPortion('citric-anhydrous', 192.123)];
    const after = react(batter({ fats: [TRILAURIN], alkalis: [soda(6)], acids }));
    // Trisodium citrate.
    expect(after.salts).toBeCloseTo(258.068, 2);
    expect(after.water).toBeCloseTo(3 * 18.015, 6);
    expect(after.freeFat).toBeCloseTo(0, 6);
  });

  it('the water KOH carries joins the rest; the impurity of NaOH stays', () => {
    const alkalis = alkaliFor(0, [TRILAURIN], [], { naohShare: 0.5, naohPurity: 0.98, kohPurity: 0.9 });
    const after = react(batter({ fats: [TRILAURIN], alkalis, water: 200 }));
    const [naoh, koh] = alkalis;
    expect(after.water).toBeCloseTo(200 + 0.1 * (koh?.mass ?? 0), 9);
    expect(after.inert).toBeCloseTo(0.02 * (naoh?.mass ?? 0), 9);
    expect(after.sodiumShare).toBeCloseTo(0.5, 12);
  });

  it('nothing happens without alkali, and nothing is lost', () => {
    const after = react(batter({ fats: [TRILAURIN], water: 10, inert: 3 }));
    expect(after).toMatchObject({ soap: 0, glycerol: 0, freeFat: 639.015, water: 10, inert: 3, sodiumShare: 0 });
    expect(after.total).toBeCloseTo(652.015, 9);
  });

  it('an acid value cannot exceed the saponification value', () => {
    expect(() => react(batter({ fats: [{ mass: 1, sv: 190, acidValue: 191 }] }))).toThrow(RangeError);
  });
});
