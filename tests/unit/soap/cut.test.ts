import { describe, expect, it } from 'vitest';
import { againstLabel, curedFit, cutInto, cutsFor, fitsOf, fitThatCarries, type Log } from '#lib/soap/cut';

const log: Log = { length: 254, mass: 1270 };
const both = { trim: 3, kerf: 0.5, ends: 2 } as const;

describe('bars of a log', () => {
  it('are as thick as what trims and cuts leave, shared out', () => {
    expect(cutInto(log, 10, both)?.thickness).toBeCloseTo(24.25, 12);
    expect(cutInto(log, 12, both)?.thickness).toBeCloseTo(20.125, 12);
    expect(cutInto(log, 10, both)?.cuts).toBe(11);
  });

  it('have a cut less for each end that stays as it was poured', () => {
    expect([0, 1, 2].map((ends) => cutsFor(10, ends as 0 | 1 | 2))).toEqual([9, 10, 11]);
    expect(cutInto(log, 10, { trim: 3, kerf: 0.5, ends: 1 })?.thickness).toBeCloseTo((254 - 3 - 5) / 10, 12);
    expect(cutInto(log, 10, { trim: 3, kerf: 0.5, ends: 0 })?.thickness).toBeCloseTo((254 - 4.5) / 10, 12);
  });

  it('add up to the log, with ends and what the cuts took', () => {
    for (const ends of [0, 1, 2] as const)
      for (let bars = 1; bars < 40; bars += 1) {
        const fit = cutInto(log, bars, { trim: 3, kerf: 0.5, ends });
        expect((fit?.thickness ?? 0) * bars + (fit?.lost ?? 0) + (fit?.ends ?? []).reduce((a, b) => a + b, 0)).toBeCloseTo(254, 9);
      }
  });

  it('weigh their share of the log', () => {
    expect(cutInto(log, 10, both)?.cutMass).toBeCloseTo(121.25, 9);
    expect(cutInto(log, 10, both)?.endMass).toBeCloseTo(30, 9);
    expect(cutInto({ ...log, mass: null }, 10, both)?.cutMass).toBeNull();
  });

  it('are none where cuts and trims take it all, and nonsense is refused', () => {
    expect(cutInto({ length: 6, mass: null }, 1, both)).toBeNull();
    expect(() => cutInto({ length: Number.NaN, mass: null }, 10, both)).toThrow(/length/);
    expect(() => cutInto(log, 2.5, both)).toThrow(/whole number/);
    expect(() => cutInto(log, 10, { ...both, kerf: -1 })).toThrow(/kerf/);
  });
});

const bars = (length: number, wires: number, ends: 0 | 1 | 2 = 2): number =>
  fitsOf({ length, mass: null }, { kind: 'fixed', wires, gap: 24, kerf: 0.5 }, { trim: 3, ends })[0]?.bars ?? 0;

describe('cutters', () => {
  it('that are set give every number of bars between their thinnest and thickest', () => {
    const fits = fitsOf(log, { kind: 'adjustable', least: 20, most: 30, kerf: 0.5 }, { trim: 3, ends: 2 });
    expect(fits.map(({ bars }) => bars)).toEqual([9, 10, 11, 12]);
    expect(fits.every(({ thickness }) => thickness >= 20 && thickness <= 30)).toBe(true);
  });

  it('of fixed wires give one, what does not fit being ends', () => {
    const [fit, ...more] = fitsOf(log, { kind: 'fixed', wires: 11, gap: 24, kerf: 0.5 }, { trim: 3, ends: 2 });
    expect(more).toEqual([]);
    expect(fit).toMatchObject({ bars: 10, thickness: 24, cuts: 11 });
    expect(fit?.ends).toEqual([(254 - 240 - 5.5) / 2, (254 - 240 - 5.5) / 2]);
  });

  it('of fixed wires are short of wires, or the log is short for them', () => {
    expect(bars(500, 11)).toBe(10);
    expect(bars(100, 11)).toBe(4);
    expect(bars(20, 11)).toBe(0);
    // Eleven wires stand between twelve bars where neither end is faced.
    expect(bars(12 * 24 + 11 * 0.5, 11, 0)).toBe(12);
  });

  it('of fixed wires add up to the log whatever the ends', () => {
    for (const ends of [0, 1, 2] as const)
      for (let length = 30; length < 400; length += 7) {
        const [fit] = fitsOf({ length, mass: null }, { kind: 'fixed', wires: 11, gap: 24, kerf: 0.5 }, { trim: 0, ends });
        if (fit === undefined) continue;
        const rest = fit.ends.reduce((a, b) => a + b, 0);
        // A last end thinner than a wire goes with its cut.
        expect(Math.abs(fit.bars * 24 + fit.lost + rest - length)).toBeLessThan(0.5 + 1e-9);
        expect(rest).toBeGreaterThanOrEqual(0);
      }
  });
});

describe('a label weight before the cut', () => {
  const left = { low: 0.88, middle: 0.9, high: 0.92 };
  const cured = fitsOf(log, { kind: 'adjustable', least: 18, most: 30, kerf: 0.5 }, { trim: 3, ends: 2 }).map((fit) =>
    curedFit(fit, { mean: 2, half: 0.4, bars: 10, learned: true }, left, 1),
  );
  const of = (bars: number) => cured.find((fit) => fit.bars === bars)!;

  it('is the lowest forecast, down to a whole step', () => {
    const ten = of(10);
    expect(ten.finished).toBeCloseTo(119.25, 9);
    expect(ten.cured?.middle).toBeCloseTo(107.325, 6);
    expect(ten.cured?.low).toBeCloseTo(107.325 - Math.hypot(119.25 * 0.02, 0.9 * 0.4), 6);
    expect(ten.label).toBe(104);
  });

  it('that a bar would fall under is said, with the fit that would do', () => {
    expect(againstLabel(of(12), 100)).toBe('under');
    expect(againstLabel(of(10), 106)).toBe('doubtful');
    expect(againstLabel(of(10), 100)).toBe('carries');
    expect(fitThatCarries(cured, 100)?.bars).toBe(10);
    expect(fitThatCarries(cured, 1000)).toBeNull();
  });

  it('is not known of a log nobody weighed', () => {
    const fit = curedFit(cutInto({ ...log, mass: null }, 10, both)!, null, left, 1);
    expect(againstLabel(fit, 100)).toBe('not-known');
    // Weighed, and nothing forecast: what is too light already will not do.
    const unsaid = { ...of(10), cured: null };
    expect([againstLabel(unsaid, 100), againstLabel(unsaid, 200)]).toEqual(['not-known', 'under']);
    expect(fitThatCarries([fit], 100)).toBeNull();
  });
});
