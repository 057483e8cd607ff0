import { describe, expect, it } from 'vitest';
import { celsius, milliKelvin } from '#lib/units/temperature';
import type { MilliCelsius } from '#lib/units/temperature';
import { joiningHolds, mayJoin, oilsLowest, withTyped } from '#lib/work/batch/index';
import type { HoldReason, Plan } from '#lib/work/batch/index';
import { SETTING_MARGIN, TYPED_TEMPERATURE_LASTS_MS } from '#lib/work/batch/joining';
import { planOf, started } from '#tests/support/batch';

const plan = planOf('alder-and-oat');
const joiningWith = (change: Partial<Plan['joining']>): Plan => ({ ...plan, joining: { ...plan.joining, ...change } });
const ready = (p: Plan = plan) => started(p).weighAll().makeLye();
const known = (value: number | null): MilliCelsius | null => (value === null ? null : celsius(value));
const at = (lye: number | null, oils: number | null, milk: number | null = null) => {
  return { lye: known(lye), oils: known(oils), milk: known(milk) };
};
const reasons = (rig: ReturnType<typeof ready>, temps: ReturnType<typeof at>) => joiningHolds(rig.now, temps).map(({ reason }) => reason);

describe('the joining rule', () => {
  const rig = ready();

  it.each<[string, number | null, number | null, readonly string[]]>([
    ['both in the window and close', 42, 40, []],
    ['at the upper edge and just close enough', 50, 44, []],
    ['lye above the window', 50.1, 45, ['lye-too-hot']],
    ['lye below the window', 29.9, 34, ['lye-too-cold']],
    ['oils above the window', 46, 50.1, ['oils-too-hot']],
    ['oils within the margin above where they set', 36, 32.9, ['oils-near-setting']],
    ['oils at the margin', 36, 33, []],
    ['too far apart', 46.1, 40, ['apart']],
    ['hot and apart', 60, 40, ['lye-too-hot', 'apart']],
    ['no lye temperature', null, 40, ['temperature-unknown']],
    ['no oils temperature, and the lye too hot', 60, null, ['temperature-unknown', 'lye-too-hot']],
    ['neither', null, null, ['temperature-unknown']],
  ])('%s', (_name, lye, oils, expected) => {
    expect(reasons(rig, at(lye, oils))).toEqual(expected);
    expect(mayJoin(joiningHolds(rig.now, at(lye, oils)))).toBe(expected.length === 0);
  });

  it('the oils’ lower edge is the window or the setting point with its margin, whichever is higher', () => {
    expect(oilsLowest(plan.joining)).toBe(celsius(31) + SETTING_MARGIN);
    expect(oilsLowest({ ...plan.joining, oilsSetAt: celsius(20) })).toBe(celsius(30));
    expect(oilsLowest({ ...plan.joining, oilsSetAt: null })).toBe(celsius(30));
  });

  it('says the value and the limit it crosses', () => {
    expect(joiningHolds(rig.now, at(47, 40))[0]).toEqual({
      reason: 'apart',
      level: 'hold',
      overridable: true,
      overridden: false,
      value: 7_000,
      limit: 6_000,
    });
  });

  it('a difference only advises where the formula says so; lye too hot always holds', () => {
    const advising = ready(joiningWith({ apartLevel: 'advise' }));
    expect(joiningHolds(advising.now, at(48, 40))).toMatchObject([{ reason: 'apart', level: 'advise' }]);
    expect(mayJoin(joiningHolds(advising.now, at(48, 40)))).toBe(true);
    expect(mayJoin(joiningHolds(advising.now, at(55, 40)))).toBe(false);
  });

  it('a milk has its own limit, measured in the lye unless it has its own probe', () => {
    const milky = ready(joiningWith({ milkLimit: celsius(38) }));
    expect(reasons(milky, at(40, 40))).toEqual(['milk-too-hot']);
    expect(reasons(milky, at(40, 40, 36))).toEqual([]);
  });

  it('lines, lye and open questions hold, and no temperature overrides them', () => {
    const early = started().weighAll('clay');
    const holds = joiningHolds(early.now, at(40, 40));
    expect(holds.map(({ reason, overridable, value }) => [reason, overridable, value])).toEqual([
      ['line-open', false, 3],
      ['lye-not-made', false, null],
    ]);
    const over = started();
    over.setVessel('coconut');
    over.accept('coconut', 300);
    expect(joiningHolds(over.now, at(40, 40)).map(({ reason }) => reason)).toContain('alarm');
  });

  it('lye-heavy as weighed holds and cannot be overridden', () => {
    const heavy = started().weighAll('soda');
    heavy.weigh('soda', 160);
    heavy.keepOver();
    heavy.lift('soda');
    heavy.makeLye();
    expect(joiningHolds(heavy.now, at(42, 40))).toMatchObject([{ reason: 'lye-heavy', overridable: false }]);
    heavy.lye = celsius(42);
    heavy.oils = celsius(40);
    expect(heavy.code('join', { held: true })).toBe('lye-heavy');
  });
});

const hot = () => {
  const rig = ready();
  rig.lye = celsius(52);
  rig.oils = celsius(47);
  return rig;
};

const override = (rig: ReturnType<typeof hot>, reason: HoldReason, held = true) =>
  rig.code('override', { reason, held, note: 'I stir fast' });

describe('overriding', () => {
  it('is held, recorded with what was overridden, and joins', () => {
    const rig = hot();
    expect(rig.code('join', { held: true })).toBe('joining-held');
    expect(override(rig, 'lye-too-hot', false)).toBe('needs-hold');
    expect(override(rig, 'apart')).toBe('no-such');
    expect(override(rig, 'lye-too-hot')).toBe('override');
    expect(override(rig, 'lye-too-hot')).toBe('already-done');
    expect(rig.entries.at(-1)).toMatchObject({ body: { reason: 'lye-too-hot', value: 52_000, limit: 50_000, note: 'I stir fast' } });
    expect(rig.code('join', { held: false })).toBe('needs-hold');
    rig.must('join', { held: true });
    expect(rig.entries.at(-1)).toMatchObject({ kind: 'joined', body: { lye: 52_000, oils: 47_000, overrides: ['lye-too-hot'] } });
    expect(rig.now).toMatchObject({ status: 'joined', counts: { overrides: 1 } });
  });

  it('covers nothing worse than what was overridden', () => {
    const rig = hot();
    override(rig, 'lye-too-hot');
    rig.lye = celsius(53);
    expect(mayJoin(joiningHolds(rig.now, at(53, 47)))).toBe(true);
    rig.lye = celsius(53.1);
    rig.oils = celsius(48);
    expect(rig.code('join', { held: true })).toBe('joining-held');
    expect(override(rig, 'lye-too-hot')).toBe('override');
    expect(rig.code('join', { held: true })).toBe('joined');
  });

  it('an unknown temperature holds until a person overrides it', () => {
    const rig = ready();
    expect(rig.code('join', { held: true })).toBe('joining-held');
    expect(override(rig, 'temperature-unknown')).toBe('override');
    expect(rig.code('join', { held: true })).toBe('joined');
    expect(rig.now.joined).toMatchObject({ lye: null, oils: null });
  });

  it('does not outlast a restart', () => {
    const rig = hot();
    override(rig, 'lye-too-hot');
    rig.boot = 'boot-2' as typeof rig.boot;
    rig.must('resume', { contents: 'as-recorded', note: '', held: true });
    expect(rig.code('join', { held: true })).toBe('joining-held');
  });

  it('joining happens once', () => {
    const rig = ready().join();
    expect(rig.code('join', { held: true })).toBe('already-done');
    expect(override(rig, 'apart')).toBe('wrong-state');
  });
});

describe('a temperature typed by hand', () => {
  it('stands for the probe that says nothing, for a few minutes of the same boot, and is told as such', () => {
    const rig = ready();
    rig.oils = celsius(41);
    rig.must('note-temperature', { use: 'lye', value: celsius(43), why: 'asked' });
    expect(rig.entries.at(-1)).toMatchObject({ body: { source: 'by-hand' } });
    const probes = { lye: null, oils: celsius(41), milk: null };
    const typed = rig.now.typedTemperatures.lye!;
    expect(withTyped(rig.now, probes, rig.boot, typed.mono + TYPED_TEMPERATURE_LASTS_MS)).toMatchObject({ lye: 43_000, byHand: ['lye'] });
    expect(withTyped(rig.now, probes, rig.boot, typed.mono + TYPED_TEMPERATURE_LASTS_MS + 1).lye).toBeNull();
    expect(withTyped(rig.now, probes, 'boot-2' as never, typed.mono).lye).toBeNull();
    expect(withTyped(rig.now, { ...probes, lye: celsius(45) }, rig.boot, typed.mono)).toMatchObject({ lye: 45_000, byHand: [] });
    rig.must('join', { held: true });
    expect(rig.entries.at(-1)).toMatchObject({ body: { lye: 43_000, oils: 41_000, byHand: ['lye'] } });
  });

  it('a slip of the finger is refused; the program types nothing', () => {
    const rig = ready();
    expect(rig.code('note-temperature', { use: 'lye', value: celsius(430), why: 'asked' })).toBe('bad-number');
    expect(rig.code('note-temperature', { use: 'lye', value: celsius(43), why: 'asked' }, { role: 'program' })).toBe('not-yours');
  });
});

describe('trace', () => {
  it('is stamped after joining with the batter’s temperature, as often as it is seen', () => {
    const rig = ready();
    expect(rig.code('stamp-trace', { mark: 'thin', note: '' })).toBe('wrong-state');
    rig.join();
    rig.more = { batter: celsius(38.5) };
    rig.must('stamp-trace', { mark: 'thin', note: '' });
    rig.must('stamp-trace', { mark: 'wrong', note: 'grainy' });
    expect(rig.now.trace.map(({ mark, batter, note }) => [mark, batter, note])).toEqual([
      ['thin', 38_500, ''],
      ['wrong', 38_500, 'grainy'],
    ]);
  });

  it('a batter’s temperature typed within the last minute stands before any probe’s', () => {
    const rig = ready();
    rig.join();
    rig.more = { batter: celsius(38.5) };
    rig.must('note-temperature', { use: 'batter', value: celsius(44), why: 'asked' });
    rig.must('stamp-trace', { mark: 'thin', note: '' });
    rig.must('stamp-trace', { mark: 'medium', note: '' }, { mono: 10_000_000 });
    expect(rig.now.trace.map(({ batter }) => batter)).toEqual([44_000, 38_500]);
  });

  it('a line that cannot wait in a cup is weighed after joining, and does not hold it', () => {
    const lines = plan.lines.map((line) => (line.id === 'clay' ? { ...line, phase: 'trace' as const, canWait: false } : line));
    const rig = ready({ ...plan, lines });
    expect(rig.now.open).toBeNull();
    rig.join();
    expect(rig.now.open).toBe('clay');
    expect(rig.code('close', {})).toBe('wrong-order');
    expect(rig.weigh('clay').ok).toBe(true);
    expect(rig.code('close', {})).toBe('closed');
  });

  it('the allowed difference is the formula’s', () => {
    const wide = ready(joiningWith({ allowedApart: milliKelvin(10_000) }));
    expect(reasons(wide, at(48, 39))).toEqual([]);
  });
});
