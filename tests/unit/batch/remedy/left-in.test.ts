import { beforeAll, describe, expect, it } from 'vitest';
import type { Solver } from '#lib/soap/remedy/solver';
import { grams, mg } from '#lib/units/mass';
import { joiningHolds } from '#lib/work/batch/joining';
import { FINE, lineId, type BatchRig } from '#tests/support/batch';
import { formula } from '#tests/support/formula';
import { batchOf, factsWith } from '#tests/support/remedy-rig';
import { ask, cardOf, testSolver } from '#tests/support/solver';

let solve: Solver;
beforeAll(async () => {
  solve = await testSolver();
});

/** Lye-heavy hydroxide, dry in its cup, and the way out chosen that takes 11.2 g of it back out. */
const choseToTakeOut = (): BatchRig => {
  const rig = batchOf(formula({ limits: { superfat: { low: '4', high: '6' }, lye: null } })).weighAll('soda');
  rig.weigh('soda', rig.line('soda').plan.target / 1000 + 11.2);
  const { cards, solved, version } = ask(solve, rig);
  const card = cards.find(({ kind }) => kind === 'take-out');
  if (card === undefined) throw new Error('nothing is taken out');
  const others = cards.filter((one) => one !== card);
  rig.must('choose-remedy', { card, others, solved, version, facts: factsWith(), held: true });
  expect(rig.now).toMatchObject({ over: null, toDo: [{ kind: 'take-out', mass: 11_200 }] });
  return rig;
};

const takes = (rig: BatchRig, net: number) => {
  const gross = mg(300_000 - grams(net));
  const settled = rig.settle(FINE, gross);
  const { instrument, episode } = settled;
  const on = { zero: mg(300_000), text: '', unit: 'g', step: mg(10), raw: '', check: null, strip: null } as const;
  const weighed = { ...on, gross, net: grams(net), instrument, episode };
  rig.must('do-remedy-act', { weighed, held: true }, { observation: rig.seen(settled) });
};

describe('what was to be taken out of lye-heavy hydroxide', () => {
  it('and is left in: it is over as before, red, and ways out are asked for again', () => {
    const rig = choseToTakeOut();
    const { actual } = rig.line('soda');
    rig.must('do-remedy-act', { weighed: null, held: true, leave: true });
    expect(rig.line('soda')).toMatchObject({ actual, status: 'open' });
    expect(rig.now).toMatchObject({ over: { line: 'soda', by: 11_200, red: true }, toDo: [], counts: { overPours: 1 } });
    expect(joiningHolds(rig.now, { lye: null, oils: null, milk: null }).map(({ reason }) => reason)).toContain('alarm');
    expect(rig.code('answer-over', { line: lineId('soda'), choice: 'carry-on', held: true })).toBe('lye-heavy');
    expect(cardOf(ask(solve, rig), 'take-out').acts[0]).toMatchObject({ mass: 11_200 });
    expect(rig.code('answer-over', { line: lineId('soda'), choice: 'cross-out', held: true })).toContain('struck');
    expect(rig.line('soda')).toMatchObject({ actual: 0, status: 'open' });
  });

  it('and is taken out but in part: what is still over waits for a way out of its own', () => {
    const rig = choseToTakeOut();
    takes(rig, 1);
    expect(rig.now).toMatchObject({ over: { line: 'soda', by: 10_200, red: true }, toDo: [] });
    expect(cardOf(ask(solve, rig), 'take-out').acts[0]).toMatchObject({ mass: 10_200 });
  });

  it('and is taken out closes its line', () => {
    const rig = choseToTakeOut();
    takes(rig, 11.2);
    expect(rig.now.over).toBeNull();
    expect(rig.line('soda')).toMatchObject({ status: 'closed', outcome: 'within' });
  });
});
