import { beforeAll, describe, expect, it } from 'vitest';
import type { Solver } from '#lib/soap/remedy/solver';
import { as } from '#lib/units/id';
import type { LineId, LotId } from '#lib/units/id';
import { grams, mg } from '#lib/units/mass';
import { celsius } from '#lib/units/temperature';
import { asPoured, lyeVerdict } from '#lib/work/batch/poured/index';
import { BatchRig, planOf as sampleOf, started } from '#tests/support/batch';
import { entry, formula, mass, SODA, WATER, workshop } from '#tests/support/formula';
import { batchOf, computed, factsWith, LIMITS } from '#tests/support/remedy-rig';
import { ask, cardOf, kindsOf, testSolver } from '#tests/support/solver';

let solve: Solver;
beforeAll(async () => {
  solve = await testSolver();
});

const plain = formula({ limits: LIMITS });
const line = (id: string): LineId => as(id);

describe('an over-pour of a hard fat', () => {
  it('that leaves every result inside shows calmly: carry on first, nothing moved', () => {
    const rig = batchOf(plain);
    rig.weigh('coconut', 303.2);
    const answer = ask(solve, rig);
    const [first] = answer.cards;
    expect(first?.kind).toBe('carry-on');
    expect(first?.recommended?.why).toBe('inside-every-limit');
    expect(first?.leaves).toEqual([]);
    expect(first?.lines.map(({ change, target }) => [change, target])).toEqual([
      [0, rig.line('olive').plan.target],
      [0, rig.line('soda').plan.target],
    ]);
    expect(answer.clashes).toEqual([]);
  });

  it('is lifted out while it is solid: its own plan again, and only if it is', () => {
    const rig = batchOf(plain);
    rig.weigh('coconut', 318);
    const [first] = ask(solve, rig).cards;
    expect(first?.kind).toBe('lift-out');
    expect(first?.recommended?.why).toBe('still-solid');
    expect(first?.acts).toEqual([{ kind: 'lift-out', line: 'coconut', vessel: 'oils-pot', mass: 18_000, to: 'bottle', caustic: false }]);
    // Nothing about hydroxide, which is to come as planned, if more closely, behind its own gate.
    const close = batchOf(formula({ limits: { ...LIMITS, superfat: { low: '4.9', high: '5.1' } } }));
    close.weigh('coconut', 318);
    const [closely] = ask(solve, close).cards;
    expect(closely?.lines.map((one) => one.line)).toContain('soda');
    expect(closely?.cautions).toEqual(['only-if-solid']);
    expect(first?.figures?.superfat?.value).toBe(50_000);
  });

  it('is not lifted out of a pot that is warm, or once it is stirred in', () => {
    const rig = batchOf(
      formula({
        limits: LIMITS,
        temperatures: { window: { low: '30', high: '50' }, apart: '6', apartLevel: 'hold', setsAt: '28', milkLimit: null, pourAt: '40' },
      }),
    );
    rig.weigh('coconut', 318);
    expect(kindsOf(ask(solve, rig, factsWith({ oils: celsius(45) })))).not.toContain('lift-out');
    expect(kindsOf(ask(solve, rig, factsWith({ oils: celsius(22) })))).toContain('lift-out');
    expect(kindsOf(ask(solve, rig, factsWith({ stirredIn: [line('coconut')] })))).not.toContain('lift-out');
    // Where the maker has not said when it sets: warmer than any fat of it may begin to.
    const unsaid = batchOf(plain);
    unsaid.weigh('coconut', 318);
    const may = unsaid.now.plan.joining.mayStartToSet ?? celsius(0);
    expect(kindsOf(ask(solve, unsaid, factsWith({ oils: may })))).not.toContain('lift-out');
  });

  it('scaled to 318 over 300, every line becomes 1.06 times its plan', () => {
    const rig = batchOf(plain);
    rig.weigh('coconut', 318);
    const scale = cardOf(ask(solve, rig), 'scale');
    expect(scale.params['factor']).toBe(1_060_000);
    const target = (id: string): number => scale.lines.find((one) => one.line === id)?.target ?? 0;
    expect(target('olive')).toBe(742_000);
    expect(Math.abs(target('water') - 1.06 * rig.line('water').plan.target)).toBeLessThanOrEqual(150);
    expect(Math.abs(target('soda') - 1.06 * rig.line('soda').plan.target)).toBeLessThanOrEqual(150);
  });
});

const over = () => {
  const rig = batchOf(plain).weighAll('soda');
  rig.weigh('soda', rig.line('soda').plan.target / 1000 + 11.2);
  return rig;
};

describe('hydroxide over', () => {
  it('still dry: taken out, never back to its stock; carrying on is not offered', () => {
    const answer = ask(solve, over());
    const [first] = answer.cards;
    expect(first?.kind).toBe('take-out');
    expect(first?.acts).toEqual([{ kind: 'take-out', line: 'soda', vessel: 'soda-cup', mass: 11_200, to: 'waste', caustic: true }]);
    expect(first?.cautions).toEqual(expect.arrayContaining(['never-back-to-stock', 'protect']));
    const carryOn = cardOf(answer, 'carry-on');
    expect(carryOn.enabled).toBe(false);
    expect(carryOn.whyNot?.code).toBe('lye-heavy');
    expect(answer.cards.at(-1)?.kind).toBe('stop');
  });

  it('dissolved: fats are added, or lye is poured off at its own strength', () => {
    const rig = over();
    rig.keepOver();
    rig.lift('soda');
    rig.makeLye();
    const answer = ask(solve, rig);
    const add = cardOf(answer, 'add');
    expect(add.recommended).not.toBeNull();
    expect(add.lines.every(({ line: id, pour }) => pour === 0 || id === 'coconut' || id === 'olive')).toBe(true);
    const off = cardOf(answer, 'pour-off');
    expect(off.acts[0]).toMatchObject({ kind: 'pour-off', vessel: 'lye-jug', to: 'waste', caustic: true });
    expect(off.figures?.lye).toBeCloseTo(cardOf(answer, 'carry-on').figures?.lye ?? 0, -1);
    expect(off.cautions).toContain('caustic-waste');
  });

  it('dissolved and no fat left: the clash says by how much, in superfat and in stock, and pouring off is the way', () => {
    const rig = over();
    rig.keepOver();
    rig.lift('soda');
    rig.makeLye();
    const facts = factsWith({ stock: { [line('coconut')]: grams(10), [line('olive')]: grams(10) } });
    const answer = ask(solve, rig, facts);
    expect(answer.clashes.map(({ limit }) => limit)).toEqual(expect.arrayContaining(['superfat-least', 'stock']));
    expect(answer.clashes.every(({ by }) => by > 0)).toBe(true);
    expect(answer.cards[0]?.kind).toBe('pour-off');
    expect(answer.cards[0]?.recommended?.why).toBe('only-way');
  });

  it('may be added to lye that is too weak only once it has cooled, and never once joined', () => {
    const rig = batchOf(plain).weighAll('water');
    rig.weigh('water', 400);
    rig.must('answer-over', { line: line('water'), choice: 'carry-on', held: true });
    rig.weighAll().makeLye();
    const answer = ask(solve, rig);
    const more = answer.cards.flatMap(({ lines }) => lines).filter((one) => one.line === 'soda' && one.pour > 0);
    expect(more.length).toBeGreaterThan(0);
    for (const one of more) expect(one.needs).toEqual(['cooled-lye', 'hydroxide-gate']);
    const joined = batchOf(plain).weighAll().makeLye().join();
    expect(
      ask(solve, joined)
        .cards.flatMap(({ lines }) => lines)
        .filter((one) => one.line === 'soda'),
    ).toEqual([]);
  });
});

describe('a liquid oil over', () => {
  it('with hydroxide still to come: more of it, one line and by how much', () => {
    const rig = batchOf(plain);
    rig.weigh('coconut');
    rig.weigh('olive', 740);
    const card = cardOf(ask(solve, rig), 'use-more');
    expect(card.params['line']).toBe('soda');
    const moved = card.lines.find((one) => one.line === 'soda');
    expect(card.params['mass']).toBe(moved?.change);
    expect(card.figures?.superfat?.value).toBeLessThanOrEqual(60_000);
  });

  it('mixed, and nothing left to scale the batch with: a part set aside, with what that needs to be a batch like the plan', () => {
    const rig = batchOf(plain);
    rig.weigh('coconut');
    rig.weigh('olive', 800);
    const stock = Object.fromEntries(['coconut', 'olive'].map((id) => [line(id), mg(0)]));
    const card = cardOf(ask(solve, rig, factsWith({ stock: { ...stock, [line('soda')]: rig.line('soda').plan.target } })), 'split');
    const [act] = card.acts;
    if (act === undefined || !('shares' in act)) throw new Error('nothing is set aside');
    const need = (id: string): number => card.ownBatch?.find((one) => one.line === line(id))?.mass ?? 0;
    const aside = (id: string): number => act.shares.find((one) => one.line === line(id))?.mass ?? 0;
    // Saponification values of the catalogue, so much NaOH a gram of each at 5 % and 99 %; water as the plan has it to its soda.
    const { soda, water } = { soda: rig.line('soda').plan.target, water: rig.line('water').plan.target };
    const part = (257 * aside('coconut') + 190 * aside('olive')) / (257 * 300_000 + 190 * 700_000);
    expect(aside('olive') / aside('coconut')).toBeCloseTo(8 / 3, 2);
    expect(need('soda')).toBeCloseTo(soda * part, -2);
    expect(need('water') / need('soda')).toBeCloseTo(water / soda, 2);
  });

  it('alone in the pot goes back to its bottle', () => {
    const rig = batchOf(formula({ limits: LIMITS, entries: [entry('olive', 'fat', 'olive', mass('900')), WATER, SODA] }));
    rig.weigh('olive', 960);
    const [first] = ask(solve, rig).cards;
    expect(first?.kind).toBe('back-to-bottle');
    expect(first?.params['mass']).toBe(60_000);
  });
});

describe('any answer', () => {
  it('has at most five cards, one recommended and first, stopping last and held', () => {
    const rig = batchOf(plain);
    rig.weigh('coconut', 360);
    const { cards } = ask(solve, rig);
    expect(cards.length).toBeLessThanOrEqual(5);
    expect(cards.filter(({ recommended }) => recommended !== null)).toEqual([cards[0]]);
    expect(cards.at(-1)?.kind).toBe('stop');
    expect(cards.every(({ held }) => held)).toBe(true);
  });

  it('of a typed plan shows no figure; what stands by itself goes back to its target', () => {
    const rig = started(sampleOf('alder-and-oat'));
    rig.weigh('coconut', 300);
    const answer = ask(solve, rig);
    expect(answer.cards.every(({ figures }) => figures === null)).toBe(true);
    expect(kindsOf(answer)).toEqual(['lift-out', 'carry-on', 'stop']);
    expect(answer.cards[0]?.recommended?.why).toBe('still-solid');
    expect(cardOf(answer, 'carry-on').cautions).toContain('not-worked-out');
    // In with the rest nothing of it goes back: carrying on is what is left, and never said to be inside its limits.
    rig.must('answer-over', { line: line('coconut'), choice: 'carry-on', held: true });
    rig.weighAll('olive');
    rig.weigh('olive', rig.line('olive').plan.target / 1000 + 20);
    const mixed = ask(solve, rig).cards[0];
    expect(mixed).toMatchObject({ kind: 'carry-on', recommended: { why: 'not-worked-out' } });
  });

  it('holds a fragrance to its certificate', () => {
    const lavender = {
      id: 'lot-lavender-x',
      mark: 'LA 26-09',
      material: 'lavender-oil',
      certificate: { date: '2026-01-30', supplier: 'Fellside Supplies', limit: '3' },
      files: [],
    };
    const scented = formula({
      limits: LIMITS,
      entries: [...plain.entries, entry('lavender', 'fragrance', 'lavender-oil', mass('20'), { lot: as<LotId>('lot-lavender-x') })],
    });
    const rig = batchOf(scented, workshop({ lots: [...workshop().lots, lavender] })).weighAll('lavender');
    rig.weigh('lavender', 40);
    const answer = ask(solve, rig);
    expect(cardOf(answer, 'carry-on').leaves.map(({ limit }) => limit)).toContain('fragrance');
    expect(answer.cards[0]?.acts[0]).toMatchObject({ kind: 'take-out', line: 'lavender', caustic: false });
    expect(answer.cards[0]?.figures?.fragrance).toBeLessThanOrEqual(1_000_000);
  });
});

it('carrying on is not offered where the working values pass and what is believed of them is lye-heavy, as joining has it', () => {
  const wide = { ...plain, limits: { superfat: { low: '0', high: '8' }, lye: { low: '25', high: '40' } } };
  const plan = computed(wide);
  const { basis } = plan;
  if (basis?.poured === undefined) throw new Error('no basis');
  // The working value at the upper end of what a standard allows: likely it is less.
  const beliefs = basis.poured.beliefs.map((one) =>
    one.of === 'sv' ? { ...one, kind: 'range' as const, low: String(Number(one.value) * 0.9), high: one.value } : one,
  );
  const rig = new BatchRig().start({ ...plan, basis: { ...basis, poured: { ...basis.poured, beliefs } } }).weighAll('soda');
  rig.weigh('soda', Math.round(rig.line('soda').plan.target / 100 + 40) / 10);
  const answer = asPoured(rig.now);
  if (answer.kind !== 'figures') throw new Error(answer.kind);
  expect(answer.superfat?.working).toBeGreaterThan(0.01);
  expect(lyeVerdict(answer)).toBe('heavy');
  const carryOn = cardOf(ask(solve, rig), 'carry-on');
  expect(carryOn.enabled).toBe(false);
  expect(carryOn.whyNot?.code).toBe('lye-heavy');
});
