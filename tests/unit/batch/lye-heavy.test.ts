import { describe, expect, it } from 'vitest';
import { grams } from '#lib/units/mass';
import type { Plan } from '#lib/work/batch/index';
import { isLyeHeavy, plannedSuperfat, superfatAsWeighed } from '#lib/work/batch/lye-heavy';
import { changed, lineId, planOf, started } from '#tests/support/batch';

const plan = planOf('alder-and-oat');

/** Everything weighed as planned but for the soda and the olive oil, over-pours carried on. */
const weighed = (of: Plan, { soda = 140.7, olive = 400 } = {}) => {
  const rig = started(of).weighAll('olive');
  rig.accept('olive', olive, { shortIsFine: true });
  rig.weighAll('soda');
  rig.weigh('soda', soda);
  rig.keepOver();
  return rig.now;
};

const worked = (value: string): Plan => ({
  ...plan,
  basis: { method: 'test', asked: [], worked: [{ what: 'superfat', value, unit: '%', source: '', grade: '' }], values: [], limits: [] },
});

describe('superfat as weighed', () => {
  it('of a typed plan is what its lines say: 5 % as worked by hand', () => {
    expect(plannedSuperfat(plan)).toBeCloseTo(0.05, 3);
    expect(superfatAsWeighed(weighed(plan))).toBeCloseTo(0.05, 3);
  });

  it('is what the basis says where there is one', () => {
    expect(plannedSuperfat(worked('1.2'))).toBe(0.012);
    expect(plannedSuperfat(worked(''))).toBeCloseTo(0.05, 3);
  });

  it('crosses zero where the hydroxide meets the demand of the fats: 148.11 g, worked by hand', () => {
    expect(isLyeHeavy(weighed(plan, { soda: 147.9 }))).toBe(false);
    expect(isLyeHeavy(weighed(plan, { soda: 148.3 }))).toBe(true);
    // 190 mg KOH/g is 0.13545 g of NaOH: short of olive oil by 54.7 g the demand is down to 140.70 g.
    expect(isLyeHeavy(weighed(plan, { olive: 347 }))).toBe(false);
    expect(isLyeHeavy(weighed(plan, { olive: 343 }))).toBe(true);
  });

  it('a plan with little superfat allows less', () => {
    expect(isLyeHeavy(weighed(worked('1.2'), { soda: 142.3 }))).toBe(false);
    expect(isLyeHeavy(weighed(worked('1.2'), { soda: 142.7 }))).toBe(true);
  });

  it('what is still to be weighed stands at its target', () => {
    expect(superfatAsWeighed(started().now)).toBeCloseTo(0.05, 3);
  });

  it('counts from the plan as started, also when the targets moved since', () => {
    const rig = started().weighAll('soda');
    const soda = { ...rig.line('soda').plan, target: grams(160), upper: grams(165) };
    rig.must('replan', { lines: [soda], reason: 'a slip of the pen' });
    rig.weigh('soda');
    expect(rig.now.lines[lineId('soda')]).toMatchObject({ status: 'closed', outcome: 'within' });
    expect(isLyeHeavy(rig.now)).toBe(true);
  });
});

describe('where nobody has computed it', () => {
  const unsaid = changed(plan, 'soda', { superfatPerGram: null });

  it('hydroxide above its greatest weight is lye-heavy, above its tolerance where that is not computed either', () => {
    expect(superfatAsWeighed(weighed(unsaid))).toBeNull();
    expect(isLyeHeavy(weighed(unsaid))).toBe(false);
    expect(isLyeHeavy(weighed(unsaid, { soda: 142 }))).toBe(false);
    expect(isLyeHeavy(weighed(unsaid, { soda: 142.2 }))).toBe(true);
    const unlimited = changed(unsaid, 'soda', { superfatPerGram: null, upper: null });
    expect(isLyeHeavy(weighed(unlimited, { soda: 141.2 }))).toBe(true);
  });

  it('so is a fat short of its tolerance', () => {
    expect(isLyeHeavy(weighed(unsaid, { olive: 396 }))).toBe(true);
  });
});
