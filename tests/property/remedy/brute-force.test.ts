import { beforeAll, describe, expect, it } from 'vitest';
import { leastChange } from '#lib/soap/remedy/least-change';
import { changeOf, excessOf, type Programme } from '#lib/soap/remedy/programme';
import type { Solver } from '#lib/soap/remedy/solver';
import { searchedChange, wholeChange } from '#lib/soap/remedy/whole';
import { loadSolver } from '#server/remedy/highs';
import { randomFrom } from '#tests/support/random-remedy';

let solve: Solver;
beforeAll(async () => {
  solve = await loadSolver({ seconds: 10 });
});

const DIVISION = 2;

/** Grams of NaOH that a gram of each fat takes. */
const TAKES = [0.1354, 0.1832, 0.1419];

/** Three fats in the pot, hydroxide dissolved beyond what they take, a few divisions of each fat left. */
const small = (seed: number): Programme => {
  const random = randomFrom(seed);
  const between = (low: number, high: number): number => low + (high - low) * random();
  const masses = [between(100, 400), between(80, 300), between(60, 200)];
  const takes = masses.reduce((sum, mass, i) => sum + mass * (TAKES[i] ?? 0), 0);
  const soda = takes * between(0.95, 1.02);
  const total = masses.reduce((sum, mass) => sum + mass, 0);
  const least = between(0.02, 0.05);
  const share = (at: number, most: number): readonly number[] => masses.map((_, i) => (i === at ? 1 : 0) - most).concat(0);
  return {
    quantities: [
      ...masses.map((mass, i) => ({
        id: `fat ${i}`,
        reference: mass,
        least: mass,
        most: mass + DIVISION * Math.floor(between(0, 13)),
        weighing: { stays: mass, from: mass, division: DIVISION, smallest: DIVISION },
      })),
      { id: 'soda', reference: soda, least: soda, most: soda, weighing: { stays: soda, from: soda, division: null, smallest: 0 } },
    ],
    mixtures: [],
    limits: [
      { id: 'superfat-least', coefficients: [...TAKES.map((one) => (least - 1) * one), 1], most: 0, safety: false },
      { id: 'superfat-most', coefficients: [...TAKES.map((one) => (1 - least - 0.05) * one), -1], most: 0, safety: false },
      ...masses.map((mass, i) => ({
        id: `share ${i}`,
        coefficients: share(i, mass / total + between(0.01, 0.04)),
        most: 0,
        safety: false,
      })),
      { id: 'brim', coefficients: [1, 1, 1, 1], most: (total + soda) * between(1.005, 1.1), safety: false },
    ],
  };
};

interface Best {
  readonly objective: number;
  /** Fewest lines among all within a division of it. */
  readonly fewest: number;
}

/** Every combination of divisions. */
const tryAll = (programme: Programme): Best | null => {
  const found: { readonly objective: number; readonly lines: number }[] = [];
  const most = programme.quantities.map(({ least, most: high }) => Math.round((high - least) / DIVISION));
  for (let a = 0; a <= (most[0] ?? 0); a += 1)
    for (let b = 0; b <= (most[1] ?? 0); b += 1)
      for (let c = 0; c <= (most[2] ?? 0); c += 1) {
        const counts = [a, b, c, 0];
        const final = programme.quantities.map(({ least }, i) => least + DIVISION * (counts[i] ?? 0));
        if (programme.limits.every((limit) => excessOf(limit, final) <= 1e-9))
          found.push({ objective: changeOf(programme, final), lines: counts.filter((one) => one > 0).length });
      }
  if (found.length === 0) return null;
  const objective = Math.min(...found.map((one) => one.objective));
  return { objective, fewest: Math.min(...found.filter((one) => one.objective <= objective + DIVISION + 1e-9).map(({ lines }) => lines)) };
};

const CASES = 400;

describe('small over-pours, every combination of whole divisions tried', () => {
  it('what is found is within one division of the best, with the fewest lines; where nothing is found there is nothing', () => {
    let [solved, none] = [0, 0];
    for (let seed = 1; seed <= CASES; seed += 1) {
      const programme = small(seed);
      const best = tryAll(programme);
      const least = leastChange(programme, solve);
      const whole = least === null ? null : wholeChange(programme, least, solve);
      expect(whole === null, `seed ${seed}`).toBe(best === null);
      if (whole === null || best === null) {
        none += 1;
        continue;
      }
      solved += 1;
      expect(whole.objective, `seed ${seed}`).toBeGreaterThan(best.objective - 1e-9);
      expect(whole.objective, `seed ${seed}`).toBeLessThan(best.objective + DIVISION + 1e-9);
      expect(whole.changed.filter(Boolean).length, `seed ${seed}`).toBe(best.fewest);
    }
    expect(solved).toBeGreaterThan(CASES / 4);
    expect(none).toBeGreaterThan(CASES / 20);
  });

  it('the search of the solver finds the very best', { timeout: 120_000 }, () => {
    let solved = 0;
    for (let seed = 1; seed <= 60; seed += 1) {
      const programme = small(seed);
      const best = tryAll(programme);
      const least = leastChange(programme, solve);
      if (least === null || best === null) continue;
      solved += 1;
      expect(searchedChange(programme, least, solve)?.objective, `seed ${seed}`).toBeCloseTo(best.objective, 6);
    }
    expect(solved).toBeGreaterThan(10);
  });
});
