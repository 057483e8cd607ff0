import { beforeAll, describe, expect, it } from 'vitest';
import { clashOf } from '#lib/soap/remedy/clash';
import { leastChange } from '#lib/soap/remedy/least-change';
import type { Programme } from '#lib/soap/remedy/programme';
import type { Solver } from '#lib/soap/remedy/solver';
import { wholeChange } from '#lib/soap/remedy/whole';
import { loadSolver } from '#server/remedy/highs';
import { CASES, type WorkedCase } from './cases';

let solve: Solver;
beforeAll(async () => {
  solve = await loadSolver({ seconds: 10 });
});

/** Bounds of the final mass to bounds of what a line has of its own: nothing is mixed here. What is in can be weighed in and out. */
const programmeOf = ({ lines, limits }: WorkedCase, division = 0.1): Programme => ({
  quantities: lines.map((line) => ({
    id: line.name,
    reference: line.ref,
    least: line.lo,
    most: line.hi ?? Number.POSITIVE_INFINITY,
    weighing: { stays: line.in > 0 ? line.in : line.ref, from: line.in, division, smallest: division },
  })),
  mixtures: [],
  limits: limits.map(({ name, coefficients, most }) => ({
    id: name,
    coefficients: lines.map((line) => coefficients[line.name] ?? 0),
    most,
    safety: false,
  })),
});

const named = (id: string): WorkedCase => {
  const found = CASES.find((one) => one.id === id);
  if (found === undefined) throw new Error(`no case ${id}`);
  return found;
};

describe('worked over-pours, computed elsewhere', () => {
  const solved = CASES.filter(({ objective }) => objective !== null);

  it.each(solved)('$id: $story', (one) => {
    const found = leastChange(programmeOf(one), solve);
    expect(found?.objective).toBeCloseTo(one.objective ?? Number.NaN, 3);
    for (const [at, line] of one.lines.entries()) expect(found?.final[at]).toBeCloseTo(one.final[line.name] ?? Number.NaN, 3);
    for (const [at, limit] of one.limits.entries())
      expect(found?.multipliers[at], limit.name).toBeCloseTo(one.multipliers[limit.name] ?? 0, 4);
  });

  it('R9: without stock no addition helps, and the one limit in the way says so', () => {
    const one = named('R9');
    const programme = programmeOf(one);
    expect(leastChange(programme, solve)).toBeNull();
    const clash = clashOf(programme, solve);
    expect(clash?.common).toBeCloseTo(one.clash?.relaxation ?? Number.NaN, 3);
    for (const [at, { name }] of one.limits.entries()) expect(clash?.weights[at], name).toBeCloseTo(one.clash?.limits[name] ?? 0, 6);
  });

  it('R2b: in whole grams, 25 of coconut and 28 of palm; the nearest grams would fall below 3 %', () => {
    const programme = programmeOf(named('R2'), 1);
    const least = leastChange(programme, solve);
    if (least === null) throw new Error('no least change');
    const found = wholeChange(programme, least, solve);
    expect(found?.objective).toBeCloseTo(53, 9);
    expect(found?.final.slice(0, 3)).toEqual([325, 450, 278]);
  });
});
