import { describe, expect, it } from 'vitest';
import { celsius } from '#lib/units/temperature';
import { joiningHolds, PRECAUTIONS } from '#lib/work/batch/index';
import { started } from '#tests/support/batch';
import type { BatchRig } from '#tests/support/batch';
import { formula } from '#tests/support/formula';
import { computed } from '#tests/support/remedy-rig';
import { benchAfter } from '#tests/support/bench-after';
import { TABLET } from '#tests/support/bench-rig';
import type { BenchRig } from '#tests/support/bench-rig';

/** Everything weighed, the lye made: of the soda `soda` grams, of the olive oil `olive`. Whatever is over is carried on. */
const weighed = ({ soda = 140.7, olive = 400 }): BatchRig => {
  const rig = started().weighAll('olive');
  rig.accept('olive', olive, { shortIsFine: true });
  rig.weighAll('soda');
  rig.weigh('soda', soda);
  rig.keepOver();
  rig.lift('soda');
  return rig.makeLye();
};

const warm = async (rig: BenchRig, lye = 42, oils = 40): Promise<void> => {
  for (const [use, value] of [['lye', lye] as const, ['oils', oils] as const]) {
    expect(await rig.intent({ kind: 'type-temperature', use, value: celsius(value) })).toMatchObject({ ok: true });
  }
  await rig.pass(100);
};
const held = (rig: BenchRig) => rig.bench.frame().cue.joining?.holds.map(({ reason }) => reason);

describe('joining while lye-heavy', () => {
  it.each([
    ['hydroxide far past what the fats take up', { soda: 160 }],
    ['a fat so short that the hydroxide is too much for the rest', { olive: 340 }],
  ])('%s is not offered, and no person can override it', async (_name, masses) => {
    const rig = await benchAfter(weighed(masses));
    await warm(rig);
    expect(held(rig)).toContain('lye-heavy');
    expect(rig.bench.frame().cue.joining?.ready).toBe(false);
    expect(await rig.intent({ kind: 'join', held: true })).toMatchObject({ ok: false, refusal: { code: 'lye-heavy' } });
    const override = { kind: 'override', reason: 'lye-heavy', held: true, note: 'I dare' } as const;
    expect(await rig.intent(override)).toMatchObject({ ok: false, refusal: { code: 'no-such' } });
    expect(rig.bench.batch()?.joined).toBeNull();
  });

  it('what was taken out again counts no more', async () => {
    const before = weighed({ soda: 160 });
    const rig = await benchAfter(before);
    const jug = before.vessel('lye-jug');
    const mass = jug.contents / 8;
    expect(await rig.intent({ kind: 'withdraw', vessel: 'lye-jug', mass: Math.round(mass), to: 'waste' })).toMatchObject({ ok: true });
    const holds = joiningHolds(rig.bench.batch() ?? before.now, { lye: celsius(42), oils: celsius(40), milk: null });
    expect(holds.map(({ reason }) => reason)).toEqual(['line-open']);
  });

  it.each([
    ['as planned', {}],
    ['over its limit, yet within what the fats take up', { soda: 145 }],
  ])('%s it is joined', async (_name, masses) => {
    const rig = await benchAfter(weighed(masses));
    await warm(rig);
    expect(held(rig)).toEqual([]);
    expect(await rig.intent({ kind: 'join', held: true })).toMatchObject({ ok: true });
  });
});

const seen = (rig: BenchRig, lye: number): Promise<void> =>
  rig.pass(3_000, () => {
    rig.bench.alive(TABLET, true);
    rig.temperature('lye', lye);
    rig.temperature('oils', 42);
  });
const join = (rig: BenchRig) => rig.intent({ kind: 'join', held: true });

/** The lye made at this bench, its liquid at 25 °C before. */
const made = async (): Promise<BenchRig> => {
  const before = started().weighAll();
  before.must('confirm-gate', { gate: 'cold-liquid', line: null, items: PRECAUTIONS['cold-liquid'], held: true });
  const rig = await benchAfter(before);
  await seen(rig, 25);
  expect(await rig.intent({ kind: 'dissolve', held: true })).toMatchObject({ ok: true });
  return rig;
};

const cue = (rig: BenchRig) => rig.bench.frame().cue;
const says = (rig: BenchRig, lye: number): Promise<unknown> => rig.intent({ kind: 'type-temperature', use: 'lye', value: celsius(lye) });

describe('hydroxide for a jug that does not bear the lye', () => {
  it('is drawn closed with both figures, before its precautions and before it goes in, until the liquid is cold enough', async () => {
    const plain = computed(formula());
    const vessels = plain.vessels.map((one) => (one.use === 'liquid' ? { ...one, hottest: celsius(100) } : one));
    const rig = await benchAfter(started({ ...plain, vessels }).weighAll('soda'));
    await rig.pass(1_000);
    expect(cue(rig)).toMatchObject({ phase: 'gate', gate: null, goOn: null });
    expect(cue(rig).cards).toMatchObject([{ code: 'over-rating', enabled: false, params: { rating: 100_000 } }]);
    await says(rig, 4);
    await rig.pass(1_000);
    expect(cue(rig)).toMatchObject({ phase: 'gate', gate: { gate: 'hydroxide' }, cards: [] });

    const made = started({ ...plain, vessels });
    made.lye = celsius(4);
    const later = await benchAfter(made.weighAll());
    await says(later, 30);
    await later.pass(1_000);
    expect(cue(later)).toMatchObject({ phase: 'gate', gate: null, cards: [{ code: 'over-rating', enabled: false }] });
    await says(later, 4);
    await later.pass(1_000);
    expect(cue(later)).toMatchObject({ phase: 'gate', gate: { gate: 'cold-liquid' } });
  });
});

describe('joining while the lye still heats', () => {
  it('is held on the way up through the window, and offered on the way down', async () => {
    const rig = await made();
    for (const degrees of [26, 33, 42]) await seen(rig, degrees);
    expect(held(rig)).toEqual(['lye-too-hot']);
    expect(await join(rig)).toMatchObject({
      ok: false,
      refusal: { code: 'joining-held', params: { reason: 'lye-too-hot', value: 42_000 } },
    });
    for (const degrees of [81, 60, 45]) await seen(rig, degrees);
    expect(held(rig)).toEqual([]);
    expect(await join(rig)).toMatchObject({ ok: true });
  });

  it('typed temperatures are followed like those of a probe', async () => {
    const before = started().weighAll();
    before.must('confirm-gate', { gate: 'cold-liquid', line: null, items: PRECAUTIONS['cold-liquid'], held: true });
    const rig = await benchAfter(before);
    expect(await rig.intent({ kind: 'dissolve', held: true })).toMatchObject({ ok: true });
    await warm(rig, 31);
    await warm(rig, 42);
    expect(held(rig)).toEqual(['lye-too-hot']);
    await warm(rig, 71);
    await warm(rig, 42);
    expect(held(rig)).toEqual([]);
  });

  it('a lye that is not seen to rise is joined in the window', async () => {
    const rig = await made();
    await seen(rig, 42);
    await seen(rig, 42.4);
    expect(held(rig)).toEqual([]);
  });
});

describe('trace at the bench', () => {
  it('is stamped with what the batter’s own probe says, else the one in the oils’ pot, else nothing', async () => {
    const rig = await benchAfter(weighed({}));
    await warm(rig);
    expect(await join(rig)).toMatchObject({ ok: true });
    const stamp = async (use: 'batter' | 'oils' | null, degrees: number): Promise<unknown> => {
      await rig.pass(20_000, () => rig.bench.alive(TABLET, true));
      if (use !== null) await rig.pass(2_000, () => (rig.bench.alive(TABLET, true), rig.temperature(use, degrees)));
      expect(await rig.intent({ kind: 'stamp-trace', mark: 'thin', note: '' })).toMatchObject({ ok: true });
      return rig.bench.batch()?.trace.at(-1)?.batter;
    };
    expect(await stamp(null, 0)).toBeNull();
    expect(await stamp('oils', 41)).toBe(41_000);
    expect(await stamp('batter', 38.5)).toBe(38_500);
  });
});
