import { describe, expect, it } from 'vitest';
import { grams, mg } from '#lib/units/mass';
import { carryOnCard, stopCard } from '#lib/work/batch/remedy/card';
import { benchOf } from '#lib/work/batch/remedy/bench';
import { potOf } from '#lib/work/batch/poured/pot';
import type { RemedyCard } from '#lib/work/batch/remedy/index';
import { BatchRig } from '#tests/support/batch';
import { formula } from '#tests/support/formula';
import { computed, factsWith } from '#tests/support/remedy-rig';

const as = <T>(id: string): T => id as T;
/** Coconut and olive poured into the pot. */
const poured = (): BatchRig => {
  const rig = new BatchRig().start(computed(formula()));
  rig.weigh('coconut');
  rig.weigh('olive');
  return rig;
};
const refusedAs = (decision: ReturnType<BatchRig['send']>): string => (decision.ok ? 'allowed' : decision.refusal.code);
const carryOn = (rig: BatchRig): RemedyCard => {
  const read = potOf(rig.now);
  if (read.kind !== 'pot') throw new Error(read.kind);
  return carryOnCard(benchOf(rig.now, read.pot, factsWith()));
};
const choose = (rig: BatchRig, card: RemedyCard, version = rig.now.version, held = true) =>
  rig.send('choose-remedy', { card, others: [stopCard(false)], solved: true, version, facts: factsWith(), held });

/** Ten grams of olive found in their jug. */
const stated = (): BatchRig => {
  const rig = poured();
  rig.must('state-wrong', { what: 'left-in-jug', line: as('olive'), vessel: rig.line('olive').plan.vessel, mass: grams(10), held: true });
  return rig;
};

describe('a wrong that is stated', () => {
  it('a spill takes the mixture it was out of its vessel, and asks for a way out', () => {
    const rig = poured();
    const pot = rig.line('olive').plan.vessel;
    const before = rig.vessel(pot).contents;
    const of = { what: 'spill', line: null, vessel: pot } as const;
    rig.must('state-wrong', { ...of, mass: grams(30), held: true });
    expect(rig.vessel(pot).contents).toBe(before - 30_000);
    expect(rig.now.wrong).toMatchObject({ what: 'spill' });
    expect(rig.line('olive').actual + rig.line('coconut').actual).toBe(before - 30_000);
  });

  it('a spill larger than its vessel holds changes nothing, nor does one that is not held', () => {
    const rig = poured();
    const pot = rig.line('olive').plan.vessel;
    const { version } = rig.now;
    const spill = { what: 'spill', line: null, vessel: pot } as const;
    expect(refusedAs(rig.send('state-wrong', { ...spill, mass: mg(rig.vessel(pot).contents + 1), held: true }))).toBe('bad-number');
    expect(refusedAs(rig.send('state-wrong', { ...spill, mass: grams(5), held: false }))).toBe('needs-hold');
    expect(refusedAs(rig.send('state-wrong', { ...spill, vessel: as('nowhere'), mass: grams(5), held: true }))).toBe('no-such');
    expect(rig.now.version).toBe(version);
  });

  it('another material counts where it truly belongs, lies where it lies, and its line is open again', () => {
    const rig = poured();
    const { actual, plan } = rig.line('olive');
    const had = rig.line('coconut').actual;
    rig.must('state-wrong', { what: 'material', line: plan.id, vessel: null, mass: null, was: as('coconut'), held: true });
    expect(rig.line('olive')).toMatchObject({ actual: 0, status: 'open' });
    expect(rig.line('coconut').actual).toBe(had + actual);
    expect(rig.vessel(plan.vessel).holds).toEqual({ coconut: had + actual });
    expect(rig.line('olive').contributions.map(({ struck }) => struck !== null)).toEqual([true]);
  });

  it('hydroxide is never taken for something else, and a lot only with what it is made of', () => {
    const rig = poured();
    const soda = rig.now.order.find((id) => rig.line(id).plan.material.class === 'hydroxide') ?? '';
    const about = { line: as<never>('olive'), vessel: null, mass: null, held: true };
    expect(refusedAs(rig.send('state-wrong', { what: 'material', ...about, was: as(soda) }))).toBe('wrong-order');
    expect(refusedAs(rig.send('state-wrong', { what: 'lot', ...about, lot: { id: as('x'), mark: 'X' } }))).toBe('no-such');
  });

  it('another lot changes what the batch is worked out from, not a weight', () => {
    const rig = poured();
    const basis = rig.now.plan.basis?.poured;
    if (basis === undefined) throw new Error('a computed plan has one');
    const { actual } = rig.line('olive');
    const other = { ...basis, beliefs: basis.beliefs.map((one) => ({ ...one, lot: 'other' })) };
    const lot = { id: as<never>('olive-2'), mark: 'OL 2' };
    rig.must('state-wrong', { what: 'lot', line: as('olive'), vessel: null, mass: null, lot, basis: other, held: true });
    expect(rig.line('olive')).toMatchObject({ actual, plan: { lot } });
    expect(rig.now.plan.basis?.poured?.beliefs.every((one) => one.lot === 'other')).toBe(true);
  });
});

describe('choosing a way out', () => {
  it('is for the version it was worked out for, held, and does what it shows, or is refused', () => {
    const rig = stated();
    const card = carryOn(rig);
    expect(refusedAs(choose(rig, card, rig.now.version - 1))).toBe('moved-on');
    expect(refusedAs(choose(rig, card, rig.now.version, false))).toBe('needs-hold');
    const { figures } = card;
    if (figures === null) throw new Error('a computed plan has figures');
    const lied = { ...card, figures: { ...figures, lye: (figures.lye ?? 0) + 1 } };
    expect(refusedAs(choose(rig, lied))).toBe('not-as-shown');
    expect(rig.now.wrong).not.toBeNull();
    expect(choose(rig, card).ok).toBe(true);
    expect(rig.now.wrong).toBeNull();
  });

  it('keeps who chose what, of what, and lets nothing be joined before', () => {
    const rig = stated();
    expect(refusedAs(rig.send('join', { held: true }))).toBe('needs-answer');
    choose(rig, carryOn(rig));
    const chosen = rig.entries.findLast(({ kind }) => kind === 'remedy-chosen');
    expect(chosen?.body).toMatchObject({ over: null, card: { kind: 'carry-on' }, others: [{ kind: 'stop' }], solved: true });
  });
});
