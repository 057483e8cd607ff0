import { describe, expect, it } from 'vitest';
import { plan as planSchema } from '#lib/work/batch/upcast/plan';
import { SAMPLE_FORMULAS } from '#lib/work/formula/sample/formulas';
import { BatchRig } from '#tests/support/batch';
import { entry, formula, grams, mass, planned, withEntry } from '#tests/support/formula';
import { RICH, RICH_WORKSHOP } from '#tests/support/rich-formula';

const PLANS = [...SAMPLE_FORMULAS.map((one) => planned(one).plan), planned(RICH, RICH_WORKSHOP).plan];

describe.each(PLANS.map((plan) => [plan.formula.name, plan] as const))('the plan of %s', (_name, plan) => {
  it('starts a batch that leads through exactly its lines, and reads back from the record as it was', () => {
    const rig = new BatchRig();
    rig.must('start', { mark: '1', plan, realm: 'test', bench: 'b' });
    expect(rig.now.order).toEqual(plan.lines.map(({ id }) => id));
    expect(rig.now.open).toBe(plan.lines[0]?.id);
    expect(planSchema.parse(JSON.parse(JSON.stringify(plan)))).toEqual(plan);
  });
});

describe('one lot in two entries', () => {
  it('is weighed twice and doubted once: its titration is off by the same amount in both', () => {
    const { figures: one } = planned(formula());
    const halves = [...withEntry('olive', { amount: mass('350') }), entry('more', 'fat', 'olive', mass('350'))];
    const plan = planned(formula({ entries: halves }));
    expect(grams(plan, 'soda')).toBeCloseTo(grams(planned(formula()), 'soda'), 9);
    expect(Math.abs(plan.figures.superfat.u / one.superfat.u - 1)).toBeLessThan(1e-3);
    expect(plan.figures.superfat.lyeHeavy).toBeLessThan(1e-6);
  });
});
