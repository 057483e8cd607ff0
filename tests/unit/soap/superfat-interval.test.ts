import { describe, expect, it } from 'vitest';
import { alkaliFor } from '#lib/soap/superfat';
import { methodUncertainty, superfatInterval, type UncertainFat } from '#lib/soap/superfat-interval';

const alkalisFor = (fats: readonly UncertainFat[], uPurity = 0, wished = 0.05) =>
  alkaliFor(wished, fats, [], { naohShare: 1, naohPurity: 0.985, kohPurity: 1 }).map((a) => ({ ...a, uPurity }));

const ranged = (mass: number, low: number, sv: number, high: number): UncertainFat => ({ mass, sv, belief: { kind: 'range', low, high } });
const known = (mass: number, sv: number, u: number): UncertainFat => ({ mass, sv, belief: { kind: 'certificate', u } });

const TABLE = [ranged(300, 248, 257, 265), ranged(200, 190, 199, 209), ranged(400, 184, 190, 196), ranged(100, 160, 180, 195)];
const CERTIFIED = TABLE.map(({ mass, sv }) => known(mass, sv, methodUncertainty('certificate', sv).u));

describe('how far superfat can be believed', () => {
  it('one fat of a symmetric triangle: half-width over root six (GUM 4.3.9)', () => {
    const fats = [ranged(1000, 180, 190, 200)];
    const { u, expected, working } = superfatInterval({ fats, alkalis: alkalisFor(fats), acids: [] });
    expect(expected).toBeCloseTo(working, 12);
    expect(u).toBeCloseTo((0.95 * (10 / Math.sqrt(6))) / 190, 9);
  });

  it('does not call a palm kernel oil used at 247 lye-heavy one time in five, as a flat range would', () => {
    const fats = [ranged(1000, 230, 247, 254)];
    const answer = superfatInterval({ fats, alkalis: alkalisFor(fats), acids: [] });
    const flat = (0.95 * 247 - 230) / 24;
    expect(flat).toBeCloseTo(0.194, 3);
    // The triangle itself, exactly: 5.3 %.
    const exact = (0.95 * 247 - 230) ** 2 / (24 * 17);
    expect(Math.abs(answer.lyeHeavy - exact)).toBeLessThan(0.01);
    // The worst case stands beside it.
    expect(answer.worst.low).toBeCloseTo(1 - (0.95 * 247) / 230, 9);
    expect(answer.worst.high).toBeCloseTo(1 - (0.95 * 247) / 254, 9);
    expect(answer.expected).toBeLessThan(answer.working);
  });

  it('narrows with certificates, and says what would help most', () => {
    const table = superfatInterval({ fats: TABLE, alkalis: alkalisFor(TABLE, 0.003), acids: [] });
    const certified = superfatInterval({ fats: CERTIFIED, alkalis: alkalisFor(CERTIFIED, 0.001), acids: [] });
    expect(2 * table.u).toBeGreaterThan(0.013);
    expect(2 * table.u).toBeLessThan(0.025);
    expect(2 * certified.u).toBeGreaterThan(0.004);
    expect(2 * certified.u).toBeLessThan(0.007);
    expect(table.parts[0]).toMatchObject({ what: 'sv', side: 'fats', of: 0 });
    expect(table.parts.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12);
  });

  it('knows the purity’s own part: a point of purity is nearly a point of superfat', () => {
    const fats = [known(1000, 190, 0)];
    const { u, parts } = superfatInterval({ fats, alkalis: alkalisFor(fats, 0.00985), acids: [] });
    expect(u).toBeCloseTo(0.95 * 0.01, 9);
    expect(parts).toEqual([{ what: 'purity', side: 'alkalis', of: 0, share: 1 }]);
  });

  it('adds the weighing of each portion', () => {
    const fats = [{ ...known(1000, 190, 0), uMass: 1 }];
    const alkalis = alkalisFor(fats).map((a) => ({ ...a, uMass: 0.1 }));
    const { u } = superfatInterval({ fats, alkalis, acids: [] });
    const soda = alkalis[0]?.mass ?? 0;
    expect(u).toBeCloseTo(0.95 * Math.hypot(1 / 1000, 0.1 / soda), 9);
  });

  it('never lets alkali be purer than pure in the worst case', () => {
    const fats = [known(1000, 190, 0)];
    const [alkali] = alkalisFor(fats, 0.05);
    const { worst } = superfatInterval({ fats, alkalis: alkali === undefined ? [] : [alkali], acids: [] });
    expect(worst.low).toBeCloseTo(1 - 0.95 / 0.985, 9);
  });

  it('is sure when nothing is in doubt', () => {
    const fats = [known(1000, 190, 0)];
    expect(superfatInterval({ fats, alkalis: alkalisFor(fats), acids: [] }).lyeHeavy).toBe(0);
    expect(superfatInterval({ fats, alkalis: alkalisFor(fats, 0, -0.02), acids: [] }).lyeHeavy).toBe(1);
  });

  it('trusts a titration more than fatty acids, and both by share', () => {
    expect(methodUncertainty('certificate', 190).u).toBeCloseTo(0.95, 9);
    expect(methodUncertainty('profile', 190).u).toBeCloseTo(1.9, 9);
    expect(() => methodUncertainty('certificate', 0)).toThrow(RangeError);
  });

  it('refuses a working value outside its range', () => {
    const fats = [ranged(1000, 180, 201, 200)];
    expect(() => superfatInterval({ fats, alkalis: alkalisFor(fats), acids: [] })).toThrow(RangeError);
  });
});
