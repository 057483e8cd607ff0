import { beforeAll, describe, expect, it } from 'vitest';
import type { Solver } from '#lib/soap/remedy/solver';
import { as } from '#lib/units/id';
import type { LineId, VesselId } from '#lib/units/id';
import { grams, mg } from '#lib/units/mass';
import { asPoured } from '#lib/work/batch/poured/index';
import type { BatchRig } from '#tests/support/batch';
import { formula } from '#tests/support/formula';
import { batchOf, factsWith } from '#tests/support/remedy-rig';
import { ask, cardOf, testSolver } from '#tests/support/solver';

let solve: Solver;
beforeAll(async () => {
  solve = await testSolver();
});

const plain = formula({ limits: { superfat: { low: '4', high: '6' }, lye: { low: '30', high: '36' } } });
const line = (id: string): LineId => as(id);
const vessel = (id: string): VesselId => as(id);

const superfatOf = (rig: BatchRig): number => {
  const answer = asPoured(rig.now);
  return answer.kind === 'figures' ? (answer.superfat?.working ?? Number.NaN) : Number.NaN;
};

/** A person says that the olive oil was of another lot, with a certificate of its own. */
const otherOlive = (rig: BatchRig, value: string): void => {
  const basis = rig.now.plan.basis?.poured;
  if (basis === undefined) throw new Error('no basis');
  const of = basis.lines.find((one) => one.line === 'olive');
  const belief = of?.fats[0]?.belief ?? -1;
  const lot = { id: as<never>('lot-olive-z'), mark: 'OL 26-99' };
  const other = {
    ...basis,
    beliefs: basis.beliefs.map((one, at) =>
      at === belief
        ? {
            of: 'sv' as const,
            material: one.material,
            name: one.name,
            lot: lot.mark,
            kind: 'certificate' as const,
            value,
            u: '0.5',
          }
        : one,
    ),
    lines: basis.lines.map((one) => (one.line === 'olive' ? { ...one, lot: lot.id } : one)),
  };
  rig.must('state-wrong', { what: 'lot', line: line('olive'), vessel: null, mass: null, lot, basis: other, held: true });
};

describe('several wrongs at once', () => {
  it('two over-pours: one answer for both', () => {
    const rig = batchOf(plain);
    rig.weigh('coconut', 330);
    rig.must('answer-over', { line: line('coconut'), choice: 'carry-on', held: true });
    rig.weigh('olive', 760);
    const answer = ask(solve, rig);
    expect(cardOf(answer, 'carry-on').leaves.map(({ limit }) => limit)).toEqual(['superfat-most']);
    const card = cardOf(answer, 'use-more');
    expect(card.figures?.superfat?.value).toBeLessThanOrEqual(60_000);
    expect(card.figures?.superfat?.value).toBeGreaterThanOrEqual(40_000);
  });

  it('a spill of lye: what is left is less alkali of the same strength, and the ways out know it', () => {
    const rig = batchOf(plain).weighAll().makeLye();
    const before = superfatOf(rig);
    rig.must('state-wrong', { what: 'spill', line: null, vessel: vessel('lye-jug'), mass: grams(60), held: true });
    expect(superfatOf(rig)).toBeGreaterThan(before + 0.1);
    const answer = ask(solve, rig);
    expect(cardOf(answer, 'carry-on').leaves[0]?.limit).toBe('superfat-most');
    const able = answer.cards.filter(({ enabled, leaves, kind }) => enabled && leaves.length === 0 && kind !== 'stop');
    expect(able.length).toBeGreaterThan(0);
    for (const { figures } of able) expect(figures?.superfat?.value).toBeLessThanOrEqual(60_000);
  });

  it('a spill larger than its vessel is refused and changes nothing', () => {
    const rig = batchOf(plain).weighAll().makeLye();
    const before = rig.now;
    const mass = mg(rig.vessel('lye-jug').contents + 1);
    expect(rig.code('state-wrong', { what: 'spill', line: null, vessel: vessel('lye-jug'), mass, held: true })).toBe('bad-number');
    expect(rig.now).toBe(before);
  });

  it('an oil that was counted and never went in is weighed after all, joined or not', () => {
    const rig = batchOf(plain).weighAll().makeLye();
    const [poured] = rig.line('coconut').contributions;
    if (poured === undefined) throw new Error('not poured');
    rig.must('strike', { entry: poured.entry, reason: 'other', note: 'its jug still stands there', held: true });
    const answer = ask(solve, rig);
    // Still to come at its plan: nothing else is wrong.
    expect(answer.cards[0]?.kind).toBe('carry-on');
    expect(cardOf(answer, 'carry-on').figures?.superfat?.value).toBeGreaterThan(40_000);
    const short = ask(solve, rig, factsWith({ stock: { [line('coconut')]: grams(200) } }));
    expect(short.cards[0]?.kind).not.toBe('carry-on');
  });

  it('once joined no hydroxide is added and no water, whatever is missing: only melted fat could be', () => {
    const rig = batchOf(plain).weighAll().makeLye().join();
    otherOlive(rig, '206');
    const heavy = ask(solve, rig);
    expect(cardOf(heavy, 'carry-on').leaves.map(({ limit }) => limit)).toEqual(['superfat-most']);
    expect(heavy.cards.flatMap(({ lines }) => lines)).toEqual([]);
    expect(heavy.clashes.map(({ limit }) => limit)).toEqual(['superfat-most']);
    const short = batchOf(plain).weighAll().makeLye().join();
    otherOlive(short, '178');
    const card = cardOf(ask(solve, short), 'add');
    expect(card.lines.length).toBeGreaterThan(0);
    for (const { line: id, needs } of card.lines) {
      expect(['coconut', 'olive']).toContain(id);
      expect(needs).toEqual(['melted']);
    }
  });

  it('another lot with another saponification value: what it did is seen and mended', () => {
    const rig = batchOf(plain).weighAll().makeLye();
    const before = superfatOf(rig);
    otherOlive(rig, '178');
    const after = superfatOf(rig);
    expect(after).toBeLessThan(before - 0.02);
    const answer = ask(solve, rig);
    expect(answer.cards[0]?.figures?.superfat?.value).toBeGreaterThanOrEqual(40_000);
    expect(answer.cards[0]?.kind).not.toBe('carry-on');
  });

  it('the wrong material: what truly lies in the pot is reckoned with', () => {
    const rig = batchOf(plain);
    rig.weigh('coconut');
    rig.must('state-wrong', { what: 'material', line: line('coconut'), vessel: null, mass: null, was: line('olive'), held: true });
    const answer = ask(solve, rig);
    expect(answer.solved).toBe(true);
    // Nothing is over: the olive oil in the pot is part of its plan, the coconut oil is still to come.
    expect(answer.cards[0]?.kind).toBe('carry-on');
  });

  it('oil left in its jug: finishing the pour comes first, and leaving it is told with what it does', () => {
    const rig = batchOf(plain).weighAll().makeLye();
    const facts = factsWith({ leftInJug: [{ line: line('olive'), vessel: vessel('oils-pot'), mass: grams(20) }] });
    const answer = ask(solve, rig, facts);
    expect(answer.cards[0]?.kind).toBe('finish-pour');
    expect(answer.cards[0]?.recommended?.why).toBe('finish-what-was-begun');
    expect(answer.cards[0]?.figures?.superfat?.value).toBe(50_000);
    const carryOn = cardOf(answer, 'carry-on');
    expect(carryOn.acts).toEqual([{ kind: 'leave', line: 'olive', vessel: 'oils-pot', mass: 20_000 }]);
    expect(carryOn.figures?.superfat?.value ?? 0).toBeLessThan(40_000);
  });
});

const spilt = (): BatchRig => {
  const rig = batchOf(plain).weighAll();
  rig.must('state-wrong', { what: 'spill', line: null, vessel: vessel('oils-pot'), mass: grams(100), held: true });
  return rig;
};

describe('a spill of oils', () => {
  it('is poured again first: each oil that was lost, and the batch is as planned', () => {
    const rig = spilt();
    const answer = ask(solve, rig);
    const [first] = answer.cards;
    expect(first).toMatchObject({
      kind: 'pour-again',
      recommended: { why: 'back-to-plan' },
      acts: [],
      params: { count: 2, mass: 100_000 },
    });
    expect(first?.lines.filter(({ pour }) => pour > 0).map((one) => [one.line, one.pour, one.target])).toEqual([
      ['coconut', 30_000, 300_000],
      ['olive', 70_000, 700_000],
    ]);
    expect(first?.figures?.superfat?.value).toBe(50_000);
    expect(first?.cautions).toContain('stock-not-known');
    const { version, solved } = answer;
    const card = cardOf(answer, 'pour-again');
    rig.must('choose-remedy', { card, others: [], solved, version, facts: factsWith(), held: true });
    rig.weighAll();
    expect([rig.line('coconut').actual, rig.line('olive').actual]).toEqual([300_000, 700_000]);
    expect(ask(solve, rig).cards[0]?.kind).toBe('carry-on');
  });

  it('is not poured again where there is not enough of one, nor out of a batter', () => {
    const short = ask(solve, spilt(), factsWith({ stock: { [line('olive')]: grams(20) } }));
    expect(short.cards.map(({ kind }) => kind)).not.toContain('pour-again');
    const rig = batchOf(plain).weighAll().makeLye().join();
    rig.must('state-wrong', { what: 'spill', line: null, vessel: vessel('oils-pot'), mass: grams(100), held: true });
    expect(ask(solve, rig).cards.map(({ kind }) => kind)).not.toContain('pour-again');
  });
});

const stated = (mass: number | null): BatchRig => {
  const rig = batchOf(plain).weighAll().makeLye();
  const of = { what: 'left-in-jug', line: line('olive'), vessel: vessel('oils-pot') } as const;
  rig.must('state-wrong', { ...of, mass: mass === null ? null : grams(mass), held: true });
  return rig;
};

/** Twelve grams of soda that a person says still stand in their cup. */
const behind = (rig: BatchRig) =>
  ask(solve, rig, factsWith({ leftInJug: [{ line: line('soda'), vessel: vessel('soda-cup'), mass: grams(12) }] })).cards;

describe('oil that a person says still lies in its jug', () => {
  it('is not in the pot: what the batch is now says so at once, wider by what a word is worth, and is right again once it is poured on', () => {
    const rig = stated(150);
    // 126.4 g of NaOH over fats that are 150 g short.
    expect(superfatOf(rig)).toBeLessThan(-0.05);
    const facts = factsWith({ leftInJug: rig.now.leftInJug });
    const answer = ask(solve, rig, facts);
    expect(cardOf(answer, 'finish-pour').figures?.superfat?.value).toBe(50_000);
    expect(cardOf(answer, 'carry-on').whyNot?.code).toBe('lye-heavy');
    const { version, solved } = answer;
    rig.must('choose-remedy', { card: cardOf(answer, 'finish-pour'), others: [], solved, version, facts, held: true });
    expect(superfatOf(rig)).toBeLessThan(-0.05);
    rig.must('do-remedy-act', { weighed: null, held: true });
    expect(superfatOf(rig)).toBeCloseTo(0.05, 4);
  });

  it('counts once where its jug is weighed back after all', () => {
    const rig = stated(150);
    const { vessel: pot } = rig.line('olive').plan;
    const weighed = { ...rig.weighed('olive', 150), zero: mg(0), gross: grams(150) };
    rig.enterAs('weighed-back', {
      line: line('olive'),
      vessel: pot,
      weighed,
      out: [{ vessel: pot, line: line('olive'), mass: grams(150) }],
    });
    expect(rig.now.leftInJug).toEqual([]);
    const answer = asPoured(rig.now);
    expect(answer.kind === 'figures' ? answer.masses.grams[rig.now.order.indexOf(line('olive'))] : null).toBe(550);
  });

  it('of hydroxide that stayed behind is not finished by a word once the lye is made: more goes in by its gate, and into batter never', () => {
    expect(behind(batchOf(plain).weighAll()).map(({ kind }) => kind)).toContain('finish-pour');
    const made = behind(batchOf(plain).weighAll().makeLye());
    expect(made.map(({ kind }) => kind)).not.toContain('finish-pour');
    const more = made.flatMap(({ lines }) => lines).filter((one) => one.line === line('soda') && one.pour > 0);
    for (const { needs } of more) expect(needs).toContain('hydroxide-gate');
    const joined = behind(batchOf(plain).weighAll().makeLye().join());
    expect(joined.map(({ kind }) => kind)).not.toContain('finish-pour');
    expect(joined.flatMap(({ lines }) => lines).filter((one) => one.line === line('soda') && one.pour > 0)).toEqual([]);
  });

  it('without a mass is all of it: forgotten altogether', () => {
    const rig = stated(null);
    expect(rig.now.leftInJug).toEqual([{ line: 'olive', vessel: 'oils-pot', mass: 700_000 }]);
    const answer = asPoured(rig.now);
    expect(answer.kind === 'figures' ? answer.masses.grams[rig.now.order.indexOf(line('olive'))] : null).toBe(0);
  });
});

describe('a batter that is partly in its moulds', () => {
  it('only what is still in the pot is mended, and its figures are told', () => {
    const rig = batchOf(plain).weighAll().makeLye().join();
    const half = mg(Math.round(rig.vessel('oils-pot').contents / 2));
    rig.must('split', { vessel: vessel('oils-pot'), parts: [{ name: 'plain', mass: half }] });
    otherOlive(rig, '178');
    const card = cardOf(ask(solve, rig), 'add');
    const whole = batchOf(plain).weighAll().makeLye().join();
    otherOlive(whole, '178');
    const all = cardOf(ask(solve, whole), 'add');
    const poured = (of: typeof card): number => of.lines.reduce((sum, { pour }) => sum + pour, 0);
    // Half of it needs half as much, to a division of each line.
    expect(Math.abs(poured(card) - poured(all) / 2)).toBeLessThanOrEqual(200);
    expect(card.figures?.superfat?.value ?? 0).toBeGreaterThanOrEqual(40_000);
    expect(Math.abs((card.figures?.batter ?? 0) - half - poured(card))).toBeLessThanOrEqual(2);
  });
});
