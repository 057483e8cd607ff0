import { describe, expect, it } from 'vitest';
import { planOnBench } from '#lib/work/formula/index';
import type { Scale } from '#lib/work/formula/index';
import type { LinePlan, Plan } from '#lib/work/batch/index';
import { grams } from '#lib/units/mass';
import { planOf } from '#tests/support/batch';

const scale = (role: Scale['role'], division: number | null): Scale => ({
  id: role,
  role,
  name: role,
  capacity: null,
  division: division === null ? null : grams(division),
  repeatability: null,
});
const plan = planOf('alder-and-oat');
const line = (of: Plan, id: string): LinePlan => of.lines.find((one) => String(one.id) === id) as LinePlan;

describe('a plan on the bench that is here', () => {
  it('is left alone where every line has its scale', () => {
    expect(planOnBench(plan, [scale('main', 1), scale('fine', 0.01)])).toEqual(plan);
  });

  it('goes to the big scale where there is no small one, says so, and asks no more of it than it shows', () => {
    const here = planOnBench(plan, [scale('main', 1)]);
    expect(here.lines.map((one) => one.scale)).toEqual(here.lines.map(() => 'main'));
    expect(line(here, 'alder-scent')).toMatchObject({ meant: 'fine', mode: 'gain', tolerance: grams(1) });
    expect(line(here, 'olive')).toEqual(line(plan, 'olive'));
  });

  it('goes to the small scale where there is no big one', () => {
    const here = planOnBench(plan, [scale('fine', 0.01)]);
    expect(line(here, 'olive')).toMatchObject({ scale: 'fine', meant: 'main', tolerance: line(plan, 'olive').tolerance });
  });

  it('keeps its tolerance on a scale whose division nobody has said', () => {
    expect(line(planOnBench(plan, [scale('main', null)]), 'clay')).toMatchObject({
      meant: 'fine',
      tolerance: line(plan, 'clay').tolerance,
    });
  });

  it('is typed by hand where the other scale could let a line past its upper', () => {
    // 8 g of clay, 10 at most, on a scale that shows every 5 g.
    const here = line(planOnBench(plan, [scale('main', 5)]), 'clay');
    expect(here).toEqual({ ...line(plan, 'clay'), mode: 'by-hand' });
  });

  it('is typed by hand altogether without a scale', () => {
    const here = planOnBench(plan, []);
    expect(new Set(here.lines.map(({ mode }) => mode))).toEqual(new Set(['by-hand']));
    expect(here.lines.map(({ target, tolerance }) => [target, tolerance])).toEqual(
      plan.lines.map(({ target, tolerance }) => [target, tolerance]),
    );
  });
});
