import { beforeAll, describe, expect, it } from 'vitest';
import type { Solver } from '#lib/soap/remedy/solver';
import { mg } from '#lib/units/mass';
import type { BatchState, Draft } from '#lib/work/batch/index';
import { asPoured } from '#lib/work/batch/poured/index';
import { checkRemedy } from '#lib/work/batch/remedy/index';
import type { RemedyCard } from '#lib/work/batch/remedy/index';
import { withDrafts } from '#lib/work/batch/remedy/after';
import type { BatchRig } from '#tests/support/batch';
import { formula } from '#tests/support/formula';
import { batchOf, factsWith } from '#tests/support/remedy-rig';
import { ask, cardOf, testSolver } from '#tests/support/solver';

let solve: Solver;
beforeAll(async () => {
  solve = await testSolver();
});

const LOW = 0.04;
const HIGH = 0.06;
const plain = formula({ limits: { superfat: { low: '4', high: '6' }, lye: { low: '30', high: '36' } } });

const choose = (rig: BatchRig, card: RemedyCard): void => {
  expect(checkRemedy(rig.now, card, factsWith())).toBeNull();
  rig.must('choose-remedy', { card, others: [], version: rig.now.version, facts: factsWith(), held: true, solved: true });
};

const openOf = ({ now }: BatchRig) => Object.values(now.lines).filter(({ status }) => status !== 'closed');

/** Every line that is still to come at one end of its tolerance or the other: all of them together. */
const ends = (rig: BatchRig): readonly number[] => {
  const open = openOf(rig);
  return Array.from({ length: 2 ** open.length }, (_, n) => {
    const drafts = open.map(({ plan }, i): Draft => {
      const target = mg(plan.target + ((n >> i) % 2 === 0 ? -1 : 1) * plan.tolerance);
      return { kind: 'replanned', body: { lines: [{ ...plan, target }], reason: 'remedy' } };
    });
    return superfatOf(withDrafts(rig.now, drafts));
  });
};

const superfatOf = (state: BatchState): number => {
  const poured = asPoured(state);
  if (poured.kind !== 'figures' || poured.superfat === null) throw new Error(poured.kind);
  return poured.superfat.working;
};

describe('after a choice, lines still to come', () => {
  it('stay inside the formula whichever end of their tolerance they are poured to, all of them together', () => {
    const rig = batchOf(plain);
    rig.weigh('coconut', 318);
    const before = rig.line('olive').plan.tolerance;
    choose(rig, cardOf(ask(solve, rig), 'use-more'));
    expect(openOf(rig).map(({ plan }) => plan.id)).toEqual(['olive', 'water', 'soda']);
    expect(rig.line('olive').plan.tolerance).toBeLessThan(before);
    expect(Math.max(...ends(rig))).toBeLessThanOrEqual(HIGH);
    expect(Math.min(...ends(rig))).toBeGreaterThanOrEqual(LOW);
    expect(Math.min(...openOf(rig).map(({ plan }) => plan.tolerance))).toBeGreaterThanOrEqual(100);
  });

  it('are narrowed too where carrying on is chosen near a limit', () => {
    const rig = batchOf(plain);
    rig.weigh('coconut', 306);
    choose(rig, cardOf(ask(solve, rig), 'carry-on'));
    expect(rig.line('coconut').status).toBe('closed');
    expect(Math.max(...ends(rig))).toBeLessThanOrEqual(HIGH);
  });

  it('keep the tolerance they had while all of it stays inside', () => {
    const rig = batchOf(formula({ limits: { superfat: { low: '1', high: '9' }, lye: null } }));
    rig.weigh('coconut', 304);
    const later = ['olive', 'water', 'soda'];
    const tolerances = later.map((id) => rig.line(id).plan.tolerance);
    choose(rig, cardOf(ask(solve, rig), 'carry-on'));
    expect(later.map((id) => rig.line(id).plan.tolerance)).toEqual(tolerances);
  });
});
