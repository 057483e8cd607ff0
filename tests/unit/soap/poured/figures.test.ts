import { describe, expect, it } from 'vitest';
import { figuresOf, outcomeAt, perGramOfLine } from '#lib/soap/poured/index';
import type { MassError } from '#lib/soap/poured/index';
import { methodUncertainty } from '#lib/soap/superfat-interval';
import { certified, gramsOf, off, potOf, ranged, soda, sodaFor, TABLE } from '#tests/support/pot';

const SODA = 5;
const exact = potOf([...TABLE.map(([name, , , sv]) => certified(name, sv, 0)), soda(0)]);
const table = potOf([...TABLE.map(ranged), soda(0)]);

/** d = 0.1 g: one settled reading is off by d/√12 (GUM 4.3.7). */
const D = 0.1;
const READING = D / Math.sqrt(12);

/** Five fats' worth of readings into one pot, each line's end the next one's beginning; grams of an error in each reading, on each line. */
const cumulative: readonly MassError[] = [0, 1, 2, 3, 4].map((at) =>
  off('reading', 'scale', ...(at > 0 ? [[at - 1, READING] as const] : []), ...(at < 4 ? [[at, -READING] as const] : [])),
);

const spread = (errors: readonly MassError[], weights: readonly number[]): number =>
  Math.hypot(...errors.map(({ effect }) => effect.reduce((sum, { line, grams }) => sum + grams * (weights[line] ?? 0), 0)));

describe('weighed one upon another without tare', () => {
  it('a line is off by d/√6, and so is the sum of all of them; neighbours correlate by −0.5', () => {
    expect(spread(cumulative, [1])).toBeCloseTo(D / Math.sqrt(6), 12);
    expect(spread(cumulative, [1, 1, 1, 1])).toBeCloseTo(D / Math.sqrt(6), 12);
    const both = spread(cumulative, [1, 1]) ** 2;
    const covariance = (both - (2 * (D * D)) / 6) / 2;
    expect(covariance / ((D * D) / 6)).toBeCloseTo(-0.5, 12);
  });

  it('of fats alike, superfat is off as by one weighing, not by four', () => {
    const alike = potOf([...TABLE.map(([name]) => certified(name, 200, 0)), soda(0)]);
    const grams = [300, 200, 400, 100, 290, (1000 * 0.2 * (39.997 / 56.105) * 0.95) / 0.985];
    const { superfat } = figuresOf(alike, { grams, errors: cumulative });
    expect(superfat?.u).toBeCloseTo((0.95 * (D / Math.sqrt(6))) / 1000, 9);
  });
});

describe('the gain of a scale', () => {
  const grams = gramsOf();
  const gain = 0.001;
  it('cancels in superfat where one scale weighed everything', () => {
    const all = grams.map((mass, at) => [at, gain * mass] as const);
    expect(figuresOf(exact, { grams, errors: [off('gain', 'one', ...all)] }).superfat?.u).toBeLessThan(1e-12);
  });

  it('of two scales does not: 0.1 % each is (1 − s) × √2 × 0.1 %', () => {
    const fats = grams.flatMap((mass, at) => (at < SODA ? [[at, gain * mass] as const] : []));
    const errors = [off('gain', 'big', ...fats), off('gain', 'small', [SODA, gain * (grams[SODA] ?? 0)])];
    expect(figuresOf(exact, { grams, errors }).superfat?.u).toBeCloseTo(0.95 * Math.SQRT2 * gain, 6);
  });
});

const demand = (of: 2 | 4): number => TABLE.reduce((sum, row) => sum + row[1] * row[of], 0);

describe('how wide superfat is', () => {
  it('certificates and a 0.1 g scale: about ±0.6 points', () => {
    const pot = potOf([...TABLE.map(([name, , , sv]) => certified(name, sv, methodUncertainty('certificate', sv).u)), soda(0.002)]);
    const errors = [...cumulative, off('reading', 'scale', [SODA, D / Math.sqrt(6)])];
    const { superfat } = figuresOf(pot, { grams: gramsOf(), errors });
    const half = ((superfat?.high ?? 0) - (superfat?.low ?? 0)) / 2;
    expect(100 * half).toBeGreaterThan(0.5);
    expect(100 * half).toBeLessThan(0.75);
  });

  it('tables alone: the largest part first, and a certificate for it named with what it leaves', () => {
    const { superfat } = figuresOf(table, { grams: gramsOf(), errors: [] });
    expect(superfat?.parts.map(({ name }) => name)[0]).toBe('coconut');
    expect(superfat?.parts.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9);
    const [first] = superfat?.narrowing ?? [];
    expect(first).toMatchObject({ by: 'certificate', name: 'coconut' });
    // What it leaves is what the pot says with that certificate.
    const then = potOf([certified('coconut', 257, methodUncertainty('certificate', 257).u), ...TABLE.slice(1).map(ranged), soda(0)]);
    const after = figuresOf(then, { grams: gramsOf(), errors: [] }).superfat;
    expect(Math.abs((first?.to ?? 0) / (((after?.high ?? 0) - (after?.low ?? 0)) / 2) - 1)).toBeLessThan(0.05);
  });

  it('the worst case has every range at its worst end at once, by hand', () => {
    const { superfat } = figuresOf(table, { grams: gramsOf(), errors: [] });
    const working = TABLE.reduce((sum, [, mass, , sv]) => sum + mass * sv, 0);
    expect(superfat?.worst.low).toBeCloseTo(1 - (0.95 * working) / demand(2), 4);
    expect(superfat?.worst.high).toBeCloseTo(1 - (0.95 * working) / demand(4), 4);
  });

  it('nothing in doubt is a point, and without fat nothing is known', () => {
    const { superfat } = figuresOf(exact, { grams: gramsOf(), errors: [] });
    expect(superfat).toMatchObject({ u: 0, lyeHeavy: 0, parts: [], narrowing: [] });
    expect(superfat?.low).toBeCloseTo(0.05, 4);
    expect(figuresOf(exact, { grams: [0, 0, 0, 0, 290, 100], errors: [] }).superfat).toBeNull();
  });
});

describe('the other figures', () => {
  const grams = gramsOf();
  const naoh = sodaFor(0.05);

  it('lye of a third is what its pure alkali is of the whole solution, impurity included', () => {
    const { lye } = figuresOf(exact, { grams, errors: [off('reading', 'scale', [4, 1])] });
    expect(lye?.value).toBeCloseTo((0.985 * naoh) / (naoh + 290), 12);
    // One gram of water more: −c/solution.
    expect(lye?.u).toBeCloseTo((0.985 * naoh) / (naoh + 290) ** 2, 9);
  });

  it('shares, volume and the moulds, with what a hypothetical gram does', () => {
    const { shares, volume, full } = figuresOf(exact, { grams, errors: [] });
    expect(shares.map((one) => one?.value ?? null)).toEqual([0.3, 0.2, 0.4, 0.1, null, null]);
    const now = outcomeAt(exact, grams);
    expect(now.volume).toBeCloseTo(volume?.value ?? 0, 9);
    expect(now.full).toBeCloseTo(full?.value ?? 0, 9);
    const more = outcomeAt(exact, [301, ...grams.slice(1)]);
    const per = perGramOfLine(exact.lines[0] as (typeof exact.lines)[number]);
    expect(((more.superfat ?? 0) - (now.superfat ?? 0)) / ((per.demand * 0.95) / ((0.985 * naoh) / 39.997 / 0.95))).toBeCloseTo(1, 2);
    expect((more.volume ?? 0) - (now.volume ?? 0)).toBeCloseTo(1 / (0.915 - 20 * 0.00067), 6);
  });

  it('a fragrance without a limit is no sum, and is named', () => {
    const scent = {
      id: 'scent',
      name: 'scent',
      part: 'fragrance',
      inLye: false,
      limit: null,
      of: {
        ...exact.lines[4]!.of,
        water: 0,
        inert: [{ mass: 1, density: { value: 0.95, u: 0.05, source: { text: '', grade: 'memory' } } }],
      },
    } as const;
    const at = (limit: number | null) =>
      figuresOf({ ...exact, lines: [...exact.lines, { ...scent, limit }] }, { grams: [...grams, 25], errors: [] });
    expect(at(null)).toMatchObject({ fragrance: null, unlimited: ['scent'] });
    expect(at(0.05).load?.value).toBeCloseTo(0.025, 12);
    // In the bars with all water gone: fats, pure hydroxide less the water it forms, impurity and fragrance.
    expect(at(0.05).fragrance?.value).toBeCloseTo(25 / (1000 + naoh + 25) / 0.05, 2);
  });

  it('lye beyond the tables has no volume, and all else stands', () => {
    const strong = figuresOf(exact, { grams: gramsOf(0.05, 100), errors: [] });
    expect(strong).toMatchObject({ volume: null, full: null });
    expect(strong.superfat?.working).toBeCloseTo(0.05, 4);
  });
});
