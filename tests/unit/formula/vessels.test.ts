import { describe, expect, it } from 'vitest';
import { plan as planSchema } from '#lib/work/batch/upcast/plan';
import { PRECAUTIONS } from '#lib/work/batch/index';
import { mg } from '#lib/units/mass';
import type { Formula, PlanContext, Planned } from '#lib/work/formula/index';
import { BatchRig, lineId } from '#tests/support/batch';
import {
  codes,
  entry,
  formula,
  mass,
  planned,
  problemsOf,
  share,
  STOCK_LOT,
  STOCK_LYE,
  withEntry,
  workshop,
  WORKSHOP,
} from '#tests/support/formula';

const WITH_STOCK = workshop({ preparations: [STOCK_LYE], lots: [...WORKSHOP.lots, STOCK_LOT] });
const alone = (given: Partial<Formula> = {}): Formula =>
  formula({
    entries: withEntry('soda', { material: 'stock', lot: 'lot-stock' }).filter(({ id }) => id !== 'water'),
    wishes: { superfat: '5', lye: null },
    ...given,
  });

const lineOf = (plan: Planned, id: string) => plan.plan.lines.find((line) => String(line.id) === id);
const bearing = (grams: number): PlanContext =>
  workshop({ scales: WORKSHOP.scales.map((scale) => (scale.role === 'main' ? { ...scale, capacity: mg(1000 * grams) } : scale)) });

describe('a stock lye with no liquid beside it', () => {
  const plan = planned(alone(), WITH_STOCK);
  const line = lineOf(plan, 'soda');

  it('is weighed into the lye’s own jug as the lye it is: hydroxide by class, and nothing dissolves', () => {
    const jug = plan.plan.vessels.find(({ use }) => use === 'liquid');
    expect(line).toMatchObject({ inSolution: true, phase: 'hydroxide', vessel: jug?.id, material: { class: 'hydroxide' } });
    expect(plan.mayStart).toBe(true);
    expect(codes(plan)).not.toContain('dilution-heat-unknown');
    const kinds = plan.steps.map(({ kind }) => kind);
    expect(kinds.slice(kinds.indexOf('protect'))).toEqual(['protect', 'weigh', 'meet', 'join', 'pour']);
    expect(planSchema.parse(JSON.parse(JSON.stringify(plan.plan)))).toEqual(plan.plan);
  });

  it('brings all the water there is: strength of lye and superfat are what its own figures say', () => {
    // 98.5 % pure hydroxide of the sample lot, 33 % of the stock.
    const pure = Number(WORKSHOP.lots.find(({ id }) => id === 'lot-soda-06')?.certificate?.purity?.value ?? Number.NaN) / 100;
    expect(plan.figures.lyeConcentration).toBeCloseTo(0.33 * pure, 9);
    expect(plan.figures.superfat.working).toBeCloseTo(0.05, 9);
    expect(plan.lines.find(({ entry: of }) => of === 'soda')?.grams).toBeCloseTo(plan.figures.batter - 1000, 6);
  });

  it('is led at the bench: gate, a held weight, lye made', () => {
    const rig = new BatchRig();
    rig.must('start', { mark: '1', plan: plan.plan, realm: 'test', bench: 'b' });
    rig.weighAll('soda');
    expect(rig.now.open).toBe('soda');
    rig.must('confirm-gate', { gate: 'hydroxide', line: lineId('soda'), items: PRECAUTIONS.hydroxide, held: true });
    rig.setVessel('soda');
    const grams = (line?.target ?? 0) / 1000;
    expect(rig.accept('soda', grams, { how: 'by-itself' })).toMatchObject({ ok: false, refusal: { code: 'needs-hold' } });
    expect(rig.accept('soda', grams, { how: 'held' })).toMatchObject({ ok: true });
    expect(rig.vessel(String(line?.vessel)).state).toBe('dissolved');
  });

  it('is as strong as it is: another strength cannot be wished, and nothing dry can be stirred in before it', () => {
    const wished = alone({ wishes: { superfat: '5', lye: { kind: 'concentration', percent: '30' } } });
    expect(problemsOf(wished, WITH_STOCK)).toEqual([{ code: 'stock-lye-strength', path: 'wishes.lye', params: {} }]);
    const citric = entry('citric', 'acid', 'citric-anhydrous-acid', share('1'));
    expect(problemsOf(alone({ entries: [...alone().entries, citric] }), WITH_STOCK)).toContainEqual(
      expect.objectContaining({ code: 'no-liquid' }),
    );
  });

  it('beside water it goes from its own jug into the liquid, as hydroxide does', () => {
    const thinned = planned(
      formula({
        entries: withEntry('soda', { material: 'stock', lot: 'lot-stock' }),
        wishes: { superfat: '5', lye: { kind: 'concentration', percent: '30' } },
      }),
      WITH_STOCK,
    );
    expect(lineOf(thinned, 'soda')).not.toHaveProperty('inSolution');
    expect(codes(thinned)).toContain('dilution-heat-unknown');
    expect(thinned.steps.map(({ kind }) => kind)).toContain('dissolve');
  });
});

describe('what is too heavy for the scale', () => {
  const big = formula({ size: { kind: 'fats', value: '6', unit: 'kg' } });

  it('a pot beside the scale is filled by a jug in parts, each within what scale and jug take', () => {
    const plan = planned(big, bearing(3000));
    const olive = lineOf(plan, 'olive');
    const { pours } = plan.lines.find(({ entry: of }) => of === 'olive') ?? { pours: [] };
    expect(olive?.into).toBeDefined();
    expect(pours.length).toBeGreaterThan(1);
    expect(olive?.atOnce).toBe(Math.max(...pours));
    expect(pours.reduce((sum, one) => sum + one, 0)).toBe(olive?.target);
    const jug = plan.plan.vessels.find(({ id }) => id === olive?.vessel);
    expect((jug?.empty ?? 0) + (olive?.atOnce ?? 0)).toBeLessThanOrEqual(3_000_000);
    expect(codes(plan)).not.toContain('capacity-exceeded');
    expect(planSchema.parse(JSON.parse(JSON.stringify(plan.plan)))).toEqual(plan.plan);
  });

  it('a lye jug no scale bears stands beside it: the water is weighed by what its bottle loses', () => {
    const plan = planned(big, bearing(2000));
    expect(lineOf(plan, 'water')).toMatchObject({ mode: 'loss' });
    expect(lineOf(plan, 'water')?.atOnce).toBeLessThanOrEqual(1_400_000);
    expect(plan.warnings).toContainEqual(expect.objectContaining({ code: 'weighed-by-loss', level: 'note', entry: 'water' }));
    expect(lineOf(planned(formula()), 'water')).toMatchObject({ mode: 'gain' });
  });

  it('by its loss when it is asked, into the pot itself and without a jug to carry', () => {
    const entries = withEntry('olive', { weighed: 'loss' }, withEntry('coconut', { weighed: 'loss' }));
    const plan = planned(formula({ entries, size: { kind: 'fats', value: '6', unit: 'kg' } }), bearing(3000));
    const olive = lineOf(plan, 'olive');
    expect(olive).toMatchObject({ mode: 'loss' });
    expect(olive).not.toHaveProperty('into');
    expect(plan.plan.vessels.find(({ id }) => id === olive?.vessel)?.use).toBe('oils');
    expect(codes(plan)).not.toContain('weighed-by-loss');
    // What leaves a bottle of unknown mass at once: seven tenths of what the scale bears.
    expect(Math.max(...(plan.lines.find(({ entry: of }) => of === 'olive')?.pours ?? []))).toBeLessThanOrEqual(2_100_000);
  });

  it('in a vessel nobody has weighed, a line is still no more than the scale bears', () => {
    const vessels = WORKSHOP.vessels.map((vessel) => ({ ...vessel, empty: null }));
    const plan = planned(big, { ...bearing(2000), vessels });
    for (const { entry: of, pours, scale } of plan.lines.filter((line) => ['olive', 'coconut', 'water'].includes(line.entry))) {
      expect(Math.max(...pours), of).toBeLessThanOrEqual(1_400_000);
      expect(scale.couldServe, of).not.toContain('small scale');
    }
    expect(lineOf(plan, 'olive')?.into).toBeDefined();
  });

  it('a cup of hydroxide that no scale bears stops the plan: hydroxide is not poured from part to part', () => {
    const soda = planned(formula({ entries: withEntry('olive', { amount: mass('30', 'kg') }) }), bearing(3000));
    expect(soda.warnings).toContainEqual(expect.objectContaining({ code: 'capacity-exceeded', level: 'must', entry: 'soda' }));
  });
});
