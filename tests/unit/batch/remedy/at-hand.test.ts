import { beforeAll, describe, expect, it } from 'vitest';
import type { Solver } from '#lib/soap/remedy/solver';
import { as } from '#lib/units/id';
import type { LineId } from '#lib/units/id';
import { grams, mg } from '#lib/units/mass';
import { smallestOn, stockAtHand, stockByBooks } from '#lib/work/batch/remedy/index';
import type { RemedyAnswer } from '#lib/work/batch/remedy/index';
import { MAIN, type BatchRig } from '#tests/support/batch';
import { formula } from '#tests/support/formula';
import { batchOf, computed, factsWith, LIMITS, SCALES } from '#tests/support/remedy-rig';
import { ask, kindsOf, testSolver } from '#tests/support/solver';

let solve: Solver;
beforeAll(async () => {
  solve = await testSolver();
});

const plain = formula({ limits: LIMITS });
const line = (id: string): LineId => as(id);
const left = (rig: BatchRig, id: string, mass: number, beside = true) =>
  rig.code('state-wrong', {
    what: 'stock',
    line: line(id),
    vessel: null,
    mass: grams(mass),
    held: true,
    ...(beside ? { beside: true } : {}),
  });
const atHand = (rig: BatchRig): RemedyAnswer => ask(solve, rig, factsWith({ stock: stockAtHand(rig.now), stirredIn: rig.now.stirredIn }));
const pours = ({ cards }: RemedyAnswer, id: string): number =>
  Math.max(0, ...cards.flatMap(({ lines }) => lines.filter((one) => one.line === id).map(({ pour }) => pour)));

/** Lye made of too much hydroxide: fats would have to be added. */
const heavy = (): BatchRig => {
  const rig = batchOf(plain).weighAll('soda');
  rig.weigh('soda', rig.line('soda').plan.target / 1000 + 11.2);
  rig.keepOver();
  rig.lift('soda');
  return rig.makeLye();
};

describe('"there is not enough of it"', () => {
  it('said beside the cards makes that stock nothing: the ways out are worked out anew without it, and nothing else is asked', () => {
    const rig = heavy();
    expect(pours(ask(solve, rig), 'coconut')).toBeGreaterThan(0);
    expect(left(rig, 'coconut', 0)).toBe('wrong-stated');
    expect(rig.now.wrong).toBeNull();
    const answer = atHand(rig);
    expect(pours(answer, 'coconut')).toBe(0);
    expect(pours(answer, 'olive')).toBeGreaterThan(0);
    expect(left(rig, 'olive', 0)).toBe('wrong-stated');
    expect(kindsOf(atHand(rig))).not.toContain('add');
    expect(atHand(rig).cards[0]?.kind).toBe('pour-off');
  });

  it('with an amount bounds by it, less what is poured of it since; the newest word counts', () => {
    const rig = batchOf(plain);
    left(rig, 'olive', 900);
    expect(stockAtHand(rig.now)).toEqual({ olive: 900_000 });
    left(rig, 'olive', 750);
    rig.weigh('coconut');
    rig.weigh('olive');
    expect(stockAtHand(rig.now)).toEqual({ olive: 50_000 });
  });

  it('of what is still to come is wrong by itself, and asks for a way out', () => {
    const rig = batchOf(plain);
    rig.weigh('coconut');
    left(rig, 'olive', 650, false);
    expect(rig.now.wrong).toMatchObject({ what: 'stock', line: 'olive' });
    const answer = atHand(rig);
    expect(answer.cards.find(({ kind }) => kind === 'carry-on')?.enabled).toBe(false);
    expect(answer.cards[0]?.lines.find((one) => one.line === 'olive')?.target ?? 0).toBeLessThanOrEqual(650_000);
    const enough = batchOf(plain);
    left(enough, 'olive', 700, false);
    expect(enough.now.wrong).toBeNull();
  });

  it('less than nothing, or of no line, is refused and changes nothing', () => {
    const rig = batchOf(plain);
    const { version } = rig.now;
    expect(rig.code('state-wrong', { what: 'stock', line: line('olive'), vessel: null, mass: mg(-1), held: true })).toBe('bad-number');
    expect(rig.code('state-wrong', { what: 'stock', line: line('nothing'), vessel: null, mass: mg(0), held: true })).toBe('no-such');
    expect(rig.now.version).toBe(version);
  });
});

describe('what the books of the stores say is left of a lot', () => {
  it('bounds what is added to its line, less what is on the pan already, and never what is still to come', () => {
    const rig = batchOf(plain);
    const before = rig.now;
    rig.weigh('coconut', 318);
    const lots = new Map([
      [rig.line('coconut').plan.lot?.id ?? '', mg(500_000)],
      [rig.line('olive').plan.lot?.id ?? '', mg(650_000)],
    ]);
    expect(stockByBooks(rig.now, before, lots)).toEqual({ coconut: 182_000, olive: 700_000 });
    expect(stockByBooks(rig.now, rig.now, lots)).toEqual({ coconut: 500_000, olive: 700_000 });
  });
});

describe('"it is melted already"', () => {
  it('takes lifting out from the ways, and is said of hard fats only', () => {
    const rig = batchOf(plain);
    rig.weigh('coconut', 318);
    expect(kindsOf(ask(solve, rig))).toContain('lift-out');
    const about = { what: 'melted', vessel: null, mass: null, held: true } as const;
    expect(rig.code('state-wrong', { ...about, line: line('coconut') })).toBe('wrong-stated');
    expect(rig.now.wrong).toBeNull();
    expect(kindsOf(atHand(rig))).not.toContain('lift-out');
    expect(rig.code('state-wrong', { ...about, line: line('olive') })).toBe('wrong-order');
  });
});

describe('the least that may be poured onto something', () => {
  it('is what its scale tells from nothing within half of it: by its division, or by its measured spread where that is wider', () => {
    const plan = computed(plain, undefined, [
      { ...(SCALES[0] as (typeof SCALES)[number]), repeatability: { value: '150', how: 'measured' } },
    ]);
    const scale = { id: MAIN, division: mg(100) };
    // 2 × 0.41 d ÷ ½ is 1.64 divisions; 2 × 150 mg ÷ ½ is 600 mg.
    expect(smallestOn({ plan: computed(plain) }, scale)).toBe(200);
    expect(smallestOn({ plan }, scale)).toBe(600);
    expect(smallestOn({ plan }, { id: MAIN, division: null })).toBeNull();
  });
});
