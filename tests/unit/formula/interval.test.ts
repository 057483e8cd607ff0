import { describe, expect, it } from 'vitest';
import { alkaliFor, superfat } from '#lib/soap/superfat';
import { superfatInterval, type UncertainFat } from '#lib/soap/superfat-interval';

/** Coconut, palm, olive and shea by their standards' ranges: low, working value, high, mg KOH/g. */
const BLEND = [
  [300, 248, 257, 265],
  [200, 190, 199, 209],
  [400, 184, 190, 196],
  [100, 160, 180, 195],
] as const;

const fats: readonly UncertainFat[] = BLEND.map(([mass, low, sv, high]) => ({ mass, sv, belief: { kind: 'range', low, high } }));
const alkalis = alkaliFor(0.05, fats, [], { naohShare: 1, naohPurity: 1, kohPurity: 1 }).map((one) => ({ ...one, uPurity: 0 }));

/** Uniform numbers from a fixed start (Lehmer, multiplier 48271, modulus 2³¹ − 1), so that the draw is the same every time. */
const uniform = (): (() => number) => {
  let state = 20_261;
  return () => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
};

const triangular = (u: number, low: number, mode: number, high: number): number => {
  const at = (mode - low) / (high - low);
  return u < at ? low + Math.sqrt(u * (high - low) * (mode - low)) : high - Math.sqrt((1 - u) * (high - low) * (high - mode));
};

const spread = (draw: (u: number, low: number, mode: number, high: number) => number): number => {
  const next = uniform();
  const rounds = 40_000;
  let [sum, squares] = [0, 0];
  for (let round = 0; round < rounds; round += 1) {
    const drawn = BLEND.map(([mass, low, sv, high]) => ({ mass, sv: draw(next(), low, sv, high) }));
    const s = superfat({ fats: drawn, alkalis, acids: [] });
    sum += s;
    squares += s * s;
  }
  return Math.sqrt(squares / rounds - (sum / rounds) ** 2);
};

/**
 * Two figures are about for the doubt of a superfat that rests on table values alone, k = 2: 1.6 points and 2.3. Drawn lots decide between
 * them. A triangle with its mode at the working value, which is what the plan believes, gives 1.6; a flat range, which calls its ends as
 * likely as its middle, gives 2.3, √2 times as much. The plan states the first and, beside it, the worst case with every fat at its worst end.
 */
describe('how wide superfat is from tables alone', () => {
  const { u } = superfatInterval({ fats, alkalis, acids: [] });

  it('by triangles on the ranges: ±1.6 points, as drawing 40,000 lots from them gives', () => {
    const drawn = spread(triangular);
    expect(Math.abs(u / drawn - 1)).toBeLessThan(0.02);
    expect(200 * u).toBeGreaterThan(1.5);
    expect(200 * u).toBeLessThan(1.7);
  });

  it('±2.3 points is what flat ranges would give: √2 as wide', () => {
    const flat = spread((one, low, _mode, high) => low + one * (high - low));
    expect(200 * flat).toBeGreaterThan(2.15);
    expect(200 * flat).toBeLessThan(2.4);
    expect(flat / u).toBeCloseTo(Math.SQRT2, 1);
  });
});
