import { beforeAll, describe, expect, it } from 'vitest';
import { clashOf } from '#lib/soap/remedy/clash';
import { leastChange } from '#lib/soap/remedy/least-change';
import { excessOf } from '#lib/soap/remedy/programme';
import { SolverFailed, type Solver } from '#lib/soap/remedy/solver';
import { searchedChange, wholeChange } from '#lib/soap/remedy/whole';
import { loadSolver } from '#server/remedy/highs';
import { randomOverPour } from '#tests/support/random-remedy';
import { farkas, lowerBound, stationarity, worstExcess } from './certificate';
import { provenNone } from './whole-proof';

let solve: Solver;
beforeAll(async () => {
  solve = await loadSolver({ seconds: 10 });
});

const CASES = 2_000;
const FIRST = 17_000;
const DIVISION = 0.1;
/** Grams beyond the continuous optimum; beyond it the solver's own search must find nothing better. */
const STATED = 1;
/** A kitchen scale of the coarse kind, grams, and how many of the cases are asked of it. */
const COARSE = 20;
const COARSE_CASES = 60;
/** Of those that have an answer each so-manieth is put to the proof too, as far as so many parts of the tree. */
const PROOF_TRIED = 5;
const FEW = 300;
const seeds = Array.from({ length: CASES }, (_, i) => FIRST + i);

/** All soft: what proves a clash must not lean on a limit that is kept aside. */
const programmeFrom = (seed: number, division = DIVISION) => {
  const { programme } = randomOverPour(seed, division);
  return { ...programme, limits: programme.limits.map((limit) => ({ ...limit, safety: false })) };
};

/** That there is nothing, and that the time ran out, are two things. */
const inTime = <T>(search: () => T): T | 'too-late' => {
  try {
    return search();
  } catch (error) {
    if (error instanceof SolverFailed) return 'too-late';
    throw error;
  }
};

describe('2,000 random over-pours', () => {
  it('the least change is the least, or none is proven by weights of the limits, both by arithmetic alone', { timeout: 120_000 }, () => {
    let [optimal, none] = [0, 0];
    for (const seed of seeds) {
      const programme = programmeFrom(seed);
      const found = leastChange(programme, solve);
      if (found === null) {
        none += 1;
        const clash = clashOf(programme, solve);
        expect(clash, `seed ${seed}`).not.toBeNull();
        expect(farkas(programme, clash?.weights ?? []), `seed ${seed}`).toBeGreaterThan(1e-9);
        continue;
      }
      optimal += 1;
      const { own, kept, multipliers, objective, final } = found;
      expect(worstExcess(programme, own, kept), `seed ${seed}`).toBeLessThan(1e-9);
      expect(Math.min(0, ...multipliers), `seed ${seed}`).toBeGreaterThan(-1e-9);
      expect(
        objective -
          lowerBound(
            programme,
            multipliers.map((one) => Math.max(0, one)),
          ),
        `seed ${seed}`,
      ).toBeLessThan(1e-6);
      if (programme.mixtures.length === 0) expect(stationarity(programme, own, multipliers), `seed ${seed}`).toBeLessThan(1e-7);
      for (const [r, limit] of programme.limits.entries())
        if ((multipliers[r] ?? 0) > 1e-6) expect(Math.abs(excessOf(limit, final)), `seed ${seed}: ${limit.id}`).toBeLessThan(1e-9);
    }
    // Both kinds, and not by chance.
    expect(optimal).toBeGreaterThan(CASES / 4);
    expect(none).toBeGreaterThan(CASES / 50);
  });

  it(
    'in whole divisions every limit is kept, within a gram of what no masses can beat, or a division of the best there is',
    { timeout: 240_000 },
    () => {
      let [worst, beyond, without, late] = [0, 0, 0, 0];
      for (const seed of seeds) {
        const programme = programmeFrom(seed);
        const least = leastChange(programme, solve);
        if (least === null) continue;
        const whole = inTime(() => wholeChange(programme, least, solve));
        if (whole === 'too-late') {
          late += 1;
          continue;
        }
        if (whole === null) {
          without += 1;
          expect(provenNone(programme, solve), `seed ${seed}`).toBe('none');
          continue;
        }
        for (const limit of programme.limits) expect(excessOf(limit, whole.final), `seed ${seed}: ${limit.id}`).toBeLessThan(1e-6);
        for (const [i, { weighing, least: low }] of programme.quantities.entries()) {
          const mass = whole.own[i] ?? 0;
          const steps = (mass - weighing.from) / (weighing.division ?? 1);
          expect(mass === weighing.stays || Math.abs(steps - Math.round(steps)) < 1e-6, `seed ${seed}: ${mass}`).toBe(true);
          expect(mass, `seed ${seed}`).toBeGreaterThan(low - 1e-9);
        }
        expect(whole.gap, `seed ${seed}`).toBeGreaterThan(-1e-6);
        if (whole.gap <= STATED) worst = Math.max(worst, whole.gap);
        else {
          beyond += 1;
          const best = searchedChange(programme, least, solve);
          expect(whole.objective, `seed ${seed}`).toBeLessThan((best?.objective ?? Number.NaN) + DIVISION + 1e-6);
        }
      }
      console.log(
        `largest distance from the continuous least change ${worst.toFixed(3)} g, but for ${beyond}; proven to have none in whole divisions ${without}; not searched in time ${late}`,
      );
      expect(beyond).toBeLessThan(CASES / 200);
      expect(late).toBe(0);
    },
  );

  it('on a scale of 20 g often nothing that can be weighed keeps every limit: each time that is proven, and never where something does', () => {
    let [none, some] = [0, 0];
    for (const seed of seeds.slice(0, COARSE_CASES)) {
      const programme = programmeFrom(seed, COARSE);
      const least = leastChange(programme, solve);
      if (least === null) continue;
      const whole = inTime(() => wholeChange(programme, least, solve));
      expect(whole, `seed ${seed}`).not.toBe('too-late');
      if (whole === null) {
        none += 1;
        expect(provenNone(programme, solve), `seed ${seed}`).toBe('none');
      } else if ((some += 1) % PROOF_TRIED === 0) expect(provenNone(programme, solve, FEW), `seed ${seed}`).not.toBe('none');
    }
    console.log(`on a scale of ${COARSE} g: proven to have none ${none}, found ${some}`);
    expect(none).toBeGreaterThan(COARSE_CASES / 50);
    expect(some).toBeGreaterThan(COARSE_CASES / 4);
  });
});
