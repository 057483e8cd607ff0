import { beforeAll, describe, expect, it } from 'vitest';
import { SolverFailed, type Solver } from '#lib/soap/remedy/solver';
import { as } from '#lib/units/id';
import type { LineId } from '#lib/units/id';
import { grams, mg } from '#lib/units/mass';
import { checkRemedy } from '#lib/work/batch/remedy/index';
import type { RemedyCard } from '#lib/work/batch/remedy/index';
import type { Scale } from '#lib/work/formula/index';
import { entry, formula, mass, SODA, WATER } from '#tests/support/formula';
import { batchOf, factsWith, LIMITS, SCALES } from '#tests/support/remedy-rig';
import { ask, cardOf, testSolver } from '#tests/support/solver';

let solve: Solver;
beforeAll(async () => {
  solve = await testSolver();
});

const plain = formula({ limits: LIMITS });
const line = (id: string): LineId => as(id);

const dissolvedOver = () => {
  const rig = batchOf(plain).weighAll('soda');
  rig.weigh('soda', rig.line('soda').plan.target / 1000 + 11.2);
  rig.keepOver();
  rig.lift('soda');
  return rig.makeLye();
};

describe('an addition that is not possible', () => {
  it('without any stock no card adds, and the clash names what is missing', () => {
    const facts = factsWith({ stock: { [line('coconut')]: mg(0), [line('olive')]: mg(0) } });
    const answer = ask(solve, dissolvedOver(), facts);
    expect(answer.cards.flatMap(({ lines }) => lines).filter(({ pour }) => pour > 0)).toEqual([]);
    expect(answer.clashes.filter(({ limit }) => limit === 'stock').length).toBeGreaterThan(0);
  });

  it('with a scale that cannot show it, nothing is added', () => {
    const unknown: readonly Scale[] = SCALES.map((scale) => ({ ...scale, division: null }));
    const answer = ask(solve, dissolvedOver(), factsWith({}, unknown));
    expect(answer.cards.flatMap(({ lines }) => lines).filter(({ pour }) => pour > 0)).toEqual([]);
    expect(answer.clashes.map(({ limit }) => limit)).toContain('smallest-weight');
  });

  it('beyond what the scale bears, nothing is added', () => {
    const rig = dissolvedOver();
    const gross = (rig.vessel('oils-pot').empty ?? 0) + rig.vessel('oils-pot').contents;
    const weak: readonly Scale[] = SCALES.map((scale) => ({ ...scale, capacity: mg(gross + 1_000) }));
    const answer = ask(solve, rig, factsWith({}, weak));
    for (const { lines } of answer.cards) expect(lines.reduce((sum, { pour }) => sum + pour, 0)).toBeLessThanOrEqual(1_000);
  });
});

describe('a search in whole divisions that runs out of its time', () => {
  it('is told as such on its card, and not as if there were nothing', () => {
    // Of a scale of 50 g nothing near the least change keeps every limit, and the solver itself is asked.
    const coarse: readonly Scale[] = SCALES.map((scale) => ({ ...scale, division: grams(50) }));
    const facts = factsWith({}, coarse);
    const late: Solver = (linear) => {
      if (linear.columns.some(({ integer }) => integer)) throw new SolverFailed('out of time');
      return solve(linear);
    };
    const whyNot = (with_: Solver) => ask(with_, dissolvedOver(), facts).cards.map(({ kind, whyNot: why }) => `${kind} ${why?.code ?? ''}`);
    expect(whyNot(late)).toContain('least-change not-solved');
    expect(whyNot(solve)).not.toContain('least-change not-solved');
  });
});

describe('limits that contradict each other', () => {
  it('are an answer: which, by how much, and what is left to do', () => {
    const entries = [
      entry('coconut', 'fat', 'coconut', mass('300'), { keep: { low: '29', high: '31' } }),
      entry('olive', 'fat', 'olive', mass('700'), { keep: { low: '69', high: '71' } }),
      WATER,
      SODA,
    ];
    const rig = batchOf(formula({ limits: LIMITS, entries }));
    rig.weigh('coconut', 400);
    rig.must('answer-over', { line: line('coconut'), choice: 'carry-on', held: true });
    rig.weigh('olive', 700);
    const answer = ask(solve, rig, factsWith({ stirredIn: [line('coconut')], stock: { [line('olive')]: grams(20) } }));
    expect(answer.clashes.length).toBeGreaterThan(0);
    expect(answer.clashes.every(({ by }) => by > 0)).toBe(true);
    expect(answer.cards.at(-1)?.kind).toBe('stop');
  });
});

const offered = () => {
  const rig = batchOf(plain);
  rig.weigh('coconut');
  rig.weigh('olive', 740);
  const facts = factsWith();
  return { rig, facts, card: cardOf(ask(solve, rig, facts), 'use-more') };
};
const withLine = (card: RemedyCard, change: Partial<RemedyCard['lines'][number]>): RemedyCard => ({
  ...card,
  lines: card.lines.map((one) => (one.line === 'soda' ? { ...one, ...change } : one)),
});

describe('a card that is not as it was shown', () => {
  it('as it was shown it may be taken', () => {
    const { rig, facts, card } = offered();
    expect(checkRemedy(rig.now, card, facts)).toBeNull();
  });

  it.each([
    ['a line that is not there', (card: RemedyCard) => withLine(card, { line: line('nobody') }), 'no-such'],
    ['a target of nothing', (card: RemedyCard) => withLine(card, { target: mg(0), pour: mg(0) }), 'bad-number'],
    ['half a milligram', (card: RemedyCard) => withLine(card, { target: 147_400.5 as never }), 'bad-number'],
    ['a pour that does not lead to its target', (card: RemedyCard) => withLine(card, { pour: mg(1_000) }), 'bad-number'],
    [
      'more hydroxide than the fats take',
      (card: RemedyCard) => withLine(card, { target: grams(170), pour: grams(170), upper: null }),
      'lye-heavy',
    ],
    [
      'hydroxide that leaves the formula',
      (card: RemedyCard) => withLine(card, { target: grams(140), pour: grams(140), upper: null }),
      'outside-limit',
    ],
    [
      'other figures',
      (card: RemedyCard) => ({ ...card, figures: card.figures === null ? null : { ...card.figures, batter: mg(1) } }),
      'not-as-shown',
    ],
    ['one that is closed', (card: RemedyCard) => ({ ...card, enabled: false }), 'not-offered'],
    ['the same line twice', (card: RemedyCard) => ({ ...card, lines: [...card.lines, ...card.lines] }), 'bad-number'],
  ])('%s', (_, change, code) => {
    const { rig, facts, card } = offered();
    expect(checkRemedy(rig.now, change(card), facts)?.code).toBe(code);
  });

  it('more than there is in stock', () => {
    const { rig, card } = offered();
    const facts = factsWith({ stock: { [line('soda')]: grams(140) } });
    expect(checkRemedy(rig.now, card, facts)?.code).toBe('no-stock');
  });

  it('hydroxide back to its bottle', () => {
    const rig = batchOf(plain).weighAll('soda');
    rig.weigh('soda', rig.line('soda').plan.target / 1000 + 11.2);
    const card = cardOf(ask(solve, rig), 'take-out');
    const back = { ...card, acts: card.acts.map((act) => ({ ...act, to: 'bottle' as const, caustic: false })) } as RemedyCard;
    expect(checkRemedy(rig.now, card, factsWith())).toBeNull();
    expect(checkRemedy(rig.now, back, factsWith())?.code).toBe('not-offered');
  });
});
