import { beforeAll, describe, expect, it } from 'vitest';
import type { Solver } from '#lib/soap/remedy/solver';
import { as } from '#lib/units/id';
import type { LineId } from '#lib/units/id';
import { mg } from '#lib/units/mass';
import { asPoured, lyeVerdict } from '#lib/work/batch/poured/index';
import { afterRemedy } from '#lib/work/batch/remedy/after';
import type { BatchRig } from '#tests/support/batch';
import { formula } from '#tests/support/formula';
import { batchOf } from '#tests/support/remedy-rig';
import { ask, cardOf, testSolver } from '#tests/support/solver';

let solve: Solver;
beforeAll(async () => {
  solve = await testSolver();
});

/** A formula that allows superfat down to nothing. */
const wide = formula({ limits: { superfat: { low: '0', high: '8' }, lye: null } });
const SODA: LineId = as('soda');

const verdictIn = (state: BatchRig['now']): string => {
  const poured = asPoured(state);
  return poured.kind === 'figures' ? lyeVerdict(poured) : poured.kind;
};

/** All is in but the hydroxide, of which so many times its target was poured, dry. */
const sodaOver = (times: number): BatchRig => {
  const rig = batchOf(wide);
  rig.weighAll('soda');
  rig.weigh('soda', Math.round((rig.line('soda').plan.target / 100) * times) / 10);
  return rig;
};

describe('an over-pour of hydroxide inside the limits of a formula that allows no superfat', () => {
  it('is red, and carrying on is not what comes first, nor calm: what its values may be off by makes it lye-heavy', () => {
    const rig = sodaOver(1.047);
    expect(verdictIn(rig.now)).toBe('may-be-heavy');
    expect(rig.now.over).toMatchObject({ line: SODA, red: true });
    const answer = ask(solve, rig);
    const [first] = answer.cards;
    expect(first?.kind).toBe('take-out');
    expect(first?.recommended).not.toBeNull();
    expect(first?.figures?.superfat?.low).toBeGreaterThanOrEqual(0);
    expect(verdictIn(afterRemedy(rig.now, first ?? { acts: [], lines: [] }))).toBe('fine');
    expect(cardOf(answer, 'carry-on')).toMatchObject({ recommended: null, cautions: ['may-be-lye-heavy'] });
    // Without a card that says so it is not carried on at all.
    expect(rig.code('answer-over', { line: SODA, choice: 'carry-on', held: true })).toBe('lye-heavy');
  });

  it('is as calm as any other while no doubt makes it lye-heavy', () => {
    const rig = sodaOver(1.009);
    expect(rig.now.over).toMatchObject({ line: SODA, red: false, by: mg(rig.line('soda').actual - rig.line('soda').plan.target) });
    expect(cardOf(ask(solve, rig), 'carry-on')).toMatchObject({ recommended: { why: 'inside-every-limit' }, cautions: [] });
  });

  it('dissolved, is led to what no doubt makes lye-heavy, by more of the fats', () => {
    const rig = sodaOver(1.047);
    rig.keepOver();
    rig.makeLye();
    const [first] = ask(solve, rig).cards;
    expect(first).toMatchObject({ kind: 'add', recommended: { why: 'least-change' } });
    expect(first?.figures?.superfat?.low).toBeGreaterThanOrEqual(0);
  });
});
