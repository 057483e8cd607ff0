import fc from '#tests/support/property';
import { describe, expect, it } from 'vitest';
import { acidPortion, acidTake } from '#lib/soap/acid';
import { hydroxide } from '#lib/soap/alkali';
import { demandOf } from '#lib/soap/fat-portion';
import { fatById } from '#lib/soap/fats/index';
import { LIQUIDS } from '#lib/soap/liquid';
import { canonical } from '#lib/record/canonical';
import { planOf } from '#lib/work/formula/index';
import type { Formula, LineFigures, Lot, Material, PlanContext, Planned } from '#lib/work/formula/index';
import { codes, planned } from '#tests/support/formula';
import { cases, type Case } from '#tests/support/random-formula';
import { wideCases } from '#tests/support/random-variants';

interface Piece {
  readonly material: Material;
  readonly lot: Lot | null;
  readonly mass: number;
}

/** What so much of a material or a preparation is made of, by the parts its maker typed. */
const piecesOf = (id: string | null, lotId: string | null, mass: number, context: PlanContext): readonly Piece[] => {
  const material = context.materials.findLast((one) => one.id === id);
  if (material !== undefined) return [{ material, lot: context.lots.find((one) => one.id === lotId) ?? null, mass }];
  const preparation = context.preparations.find((one) => one.id === id);
  if (preparation === undefined) throw new Error(String(id));
  return preparation.parts.flatMap((part) => piecesOf(part.material, part.lot, (mass * Number(part.percent)) / 100, context));
};

/** Superfat, lye concentration and water to alkali worked out anew from the masses of the lines, without any of the plan's own code. */
const again = ({ formula, context }: Case, massOf: (line: LineFigures) => number, plan: Planned) => {
  let [demand, acid, supply, pure, solution, water] = [0, 0, 0, 0, 0, 0];
  const pieces = plan.lines.flatMap((line) => {
    const entry = formula.entries.find(({ id }) => id === line.entry);
    if (entry === undefined) throw new Error(line.entry);
    return piecesOf(entry.material, entry.lot, massOf(line), context);
  });
  for (const { material, lot, mass } of pieces) {
    const { sv, purity } = lot?.certificate ?? {};
    if (material.kind === 'fat' || material.kind === 'wax')
      demand += demandOf({ mass, sv: sv === undefined ? fatById(material.id).working.value : Number(sv.value) });
    if (material.kind === 'alkali') {
      const hydroxideMass = (mass * Number(purity?.value ?? material.purity?.value)) / 100;
      supply += hydroxideMass / hydroxide(material.hydroxide).molarMass;
      pure += hydroxideMass;
      solution += mass;
      water += ((mass - hydroxideMass) * Number(material.restIsWater.value)) / 100;
    }
    if (material.kind === 'acid') {
      acid += acidTake([acidPortion(material.acid, mass)]);
      solution += mass;
    }
    if (material.kind === 'liquid') {
      const liquid = LIQUIDS.find(({ id }) => id === material.id);
      if (liquid === undefined) throw new Error(material.id);
      const { fractions, fatSv, acid: kind } = liquid;
      if (fractions.fat > 0) demand += demandOf({ mass: mass * fractions.fat, sv: fatSv ?? 0 });
      acid += acidTake([acidPortion(kind, mass * fractions.acid)]);
      solution += mass * (1 - fractions.fat);
      water += mass * fractions.water;
    }
    if (material.kind === 'additive' && material.dissolves) solution += mass;
  }
  return { superfat: 1 - (supply - acid) / demand, lye: pure / solution, ratio: water / pure };
};

const targets = (plan: Planned): ReadonlyMap<string, number> => new Map(plan.plan.lines.map(({ id, target }) => [id, target]));
const close = (a: number, b: number, relative: number): void =>
  expect(Math.abs(a - b)).toBeLessThanOrEqual(relative * Math.max(1e-9, Math.abs(a), Math.abs(b)));

describe('any sound formula', () => {
  it('becomes a plan whose lines come to its total to a milligram, whose superfat is what was asked to 1e-9 unrounded, and within rounding in milligrams', () => {
    fc.assert(
      fc.property(wideCases, (one) => {
        const plan = planned(one.formula, one.context);
        const milligrams = targets(plan);
        const unrounded = again(one, ({ grams }) => grams, plan);
        expect(Math.abs(unrounded.superfat - one.superfat)).toBeLessThan(1e-9);
        if (one.ratio === undefined) expect(Math.abs(unrounded.lye - one.lye)).toBeLessThan(1e-9);
        else close(unrounded.ratio, one.ratio, 1e-9);
        // No superfat from zero up is called lye-heavy for a last binary digit.
        expect(codes(plan)).not.toContain('lye-heavy');

        const exact = plan.lines.reduce((sum, { grams }) => sum + 1000 * grams, 0);
        const sum = plan.plan.lines.reduce((total, { target }) => total + target, 0);
        expect(plan.total).toBe(sum);
        expect(Math.abs(sum - exact)).toBeLessThanOrEqual(0.5 + 1e-6);
        expect(plan.lines.every(({ line, grams }) => Math.abs((milligrams.get(line) ?? Number.NaN) - 1000 * grams) <= 1)).toBe(true);

        // A milligram of each line times what a gram of it does.
        const room = plan.lines.reduce((total, { superfatPerGram }) => total + Math.abs(superfatPerGram) * 0.001, 0);
        const rounded = again(one, ({ line }) => (milligrams.get(line) ?? Number.NaN) / 1000, plan);
        expect(Math.abs(rounded.superfat - one.superfat)).toBeLessThanOrEqual(room * 1.01 + 1e-9);
      }),
      { numRuns: 10_000 },
    );
  }, 900_000);

  it('has a size that is what was asked: fats, batter, bars or moulds', () => {
    fc.assert(
      fc.property(wideCases, ({ formula, context }) => {
        const { figures, sizing } = planned(formula, context);
        const { size } = formula;
        if (size?.kind === 'fats') close(figures.fats, Number(size.value), 1e-9);
        if (size?.kind === 'batch') close(figures.batter, Number(size.value), 1e-9);
        if (size?.kind === 'bars') close((figures.batter - 25) * 0.995, size.count * Number(size.value), 1e-9);
        if (size?.kind === 'moulds') for (const [at, { full }] of (sizing?.moulds ?? []).entries()) close(full, at === 0 ? 0.9 : 0.8, 1e-9);
        expect(sizing?.moulds.reduce((sum, { count, batter }) => sum + count * batter, 0)).toBeCloseTo(
          sizing?.toPour.value ?? Number.NaN,
          6,
        );
      }),
    );
  });

  it('scales: k times the fats is k times every line that has no mass of its own, and the same superfat', () => {
    fc.assert(
      fc.property(cases, fc.double({ min: 0.2, max: 20, noNaN: true }), ({ formula, context }, k) => {
        const at = (grams: number): Planned => planned({ ...formula, size: { kind: 'fats', value: grams.toFixed(6), unit: 'g' } }, context);
        const [one, many] = [at(1000), at(1000 * k)];
        const times = Number((1000 * k).toFixed(6)) / 1000;
        for (const line of one.lines) close(many.lines.find(({ entry }) => entry === line.entry)?.grams ?? 0, times * line.grams, 1e-9);
        close(many.figures.superfat.working, one.figures.superfat.working, 1e-6);
        close(many.sizing?.batter.value ?? 0, times * (one.sizing?.batter.value ?? 1), 1e-9);
      }),
    );
  });

  it('loses no mass and no mole of alkali', () => {
    fc.assert(
      fc.property(wideCases, ({ formula, context }) => {
        const { figures } = planned(formula, context);
        const { soap, glycerol, freeFat, waterAfter, batter, alkaliMoles, acidDemandMoles, fatDemandMoles, superfat } = figures;
        expect(soap + glycerol + freeFat + waterAfter).toBeLessThanOrEqual(batter * (1 + 1e-9));
        close(alkaliMoles, acidDemandMoles + (1 - superfat.working) * fatDemandMoles, 1e-9);
      }),
    );
  });

  it('asks more alkali for less superfat, and more liquid for weaker lye', () => {
    fc.assert(
      fc.property(cases, ({ formula, context, superfat, lye }) => {
        const fats = { kind: 'fats', value: '1000', unit: 'g' } as const;
        const at = (s: number, c: number): { alkali: number; liquid: number } => {
          const wishes = { superfat: (100 * s).toFixed(6), lye: { kind: 'concentration', percent: (100 * c).toFixed(6) } } as const;
          const plan = planned({ ...formula, size: fats, wishes }, context);
          const of = (part: string): number =>
            plan.lines.reduce(
              (sum, { entry, grams }) => sum + (formula.entries.find(({ id }) => id === entry)?.part === part ? grams : 0),
              0,
            );
          return { alkali: of('alkali'), liquid: of('liquid') };
        };
        const here = at(superfat, lye);
        expect(at(superfat + 0.01, lye).alkali).toBeLessThan(here.alkali);
        expect(at(superfat, lye - 0.01).liquid).toBeGreaterThan(here.liquid);
      }),
    );
  });

  it('fits a sealed line, and is the same plan every time', () => {
    fc.assert(
      fc.property(wideCases, ({ formula, context }) => {
        const plan = planned(formula, context);
        expect(canonical(plan.plan as never)).toBe(canonical(planned(formula, context).plan as never));
        expect(
          plan.plan.lines.every(({ target, tolerance, upper }) => target > 0 && tolerance > 0 && (upper === null || upper >= target)),
        ).toBe(true);
      }),
      { numRuns: 200 },
    );
  });
});

const spoil = (formula: Formula, text: string, at: number): Formula => {
  const entry = formula.entries[at % formula.entries.length];
  const amounts = [
    { kind: 'mass', value: text, unit: 'kg' },
    { kind: 'share', of: 'fats', percent: text },
    { kind: 'share', of: 'batter', percent: text },
    { kind: 'rest' },
    { kind: 'unweighed', text },
    { kind: 'ounces-unclear', value: text },
    { kind: 'volume', value: text, unit: 'us-fl-oz' },
    { kind: 'share', of: 'hydroxide', percent: text },
    null,
  ] as const;
  const spoilt = formula.entries.map((one) => (one === entry ? { ...one, amount: amounts[at] ?? null } : one));
  if (at === 3) return { ...formula, wishes: { ...formula.wishes, superfat: text } };
  if (at === 4) return { ...formula, size: { kind: 'bars', count: Number(text), value: text, unit: 'lb' } };
  return { ...formula, entries: spoilt };
};

describe('any formula at all', () => {
  const junk = fc.oneof(
    fc.constantFrom('', '0', '-5', 'NaN', 'Infinity', '1e9', '1000000000', 'abc', '١٢', '12,5', ' ', '130', '100', '0.0000001'),
    fc.double().map(String),
    fc.string({ maxLength: 12 }),
  );
  const where = fc.integer({ min: 0, max: 8 });
  it('is answered with a plan or with problems that say where, never thrown at, and never an unknown number', () => {
    fc.assert(
      fc.property(wideCases, junk, where, junk, where, ({ formula, context }, a, i, b, j) => {
        const answer = planOf(spoil(spoil(formula, a, i), b, j), context);
        if (answer.kind === 'problems') {
          expect(answer.problems.length).toBeGreaterThan(0);
          expect(answer.problems.every(({ code, path }) => code.length > 0 && path.length > 0)).toBe(true);
          return;
        }
        expect(JSON.stringify(answer.figures)).not.toMatch(/NaN|Infinity/);
        expect(Number.isFinite(answer.figures.superfat.working) && Number.isFinite(answer.total)).toBe(true);
      }),
      { numRuns: 2000 },
    );
  }, 120_000);
});
