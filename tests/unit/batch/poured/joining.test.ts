import { describe, expect, it } from 'vitest';
import { celsius } from '#lib/units/temperature';
import { joiningHolds } from '#lib/work/batch/index';
import type { Plan } from '#lib/work/batch/index';
import { isLyeHeavy } from '#lib/work/batch/lye-heavy';
import { asPoured } from '#lib/work/batch/poured/index';
import { review } from '#lib/work/batch/review';
import { upcast } from '#lib/work/batch/upcast';
import { started, type BatchRig } from '#tests/support/batch';
import { formula, planned } from '#tests/support/formula';

const planAt = (superfat: string): Plan =>
  planned(
    formula({
      wishes: { superfat, lye: { kind: 'concentration', percent: '33' } },
      limits: { superfat: { low: '0', high: '8' }, lye: null },
    }),
  ).plan;

const made = (superfat: string): BatchRig => {
  const rig = started(planAt(superfat)).weighAll().makeLye();
  rig.lye = celsius(41);
  rig.oils = celsius(42);
  return rig;
};

const holds = (rig: BatchRig): readonly string[] =>
  joiningHolds(rig.now, { lye: rig.lye, oils: rig.oils, milk: null })
    .filter(({ level, overridden }) => level === 'hold' && !overridden)
    .map(({ reason }) => reason);

describe('joining by the superfat as poured', () => {
  it('5 % with values from tables is joined without a word', () => {
    const rig = made('5');
    expect(holds(rig)).toEqual([]);
    expect(rig.code('join', { held: true })).toBe('joined');
  });

  it('1 % may be lye-heavy: held until a person, holding, says that they go on; what they were shown is on record', () => {
    const rig = made('1');
    expect(holds(rig)).toEqual(['may-be-lye-heavy']);
    expect(rig.code('join', { held: true })).toBe('joining-held');
    expect(rig.code('override', { reason: 'may-be-lye-heavy', held: false, note: '' })).toBe('needs-hold');
    const [entry] = rig.must('override', { reason: 'may-be-lye-heavy', held: true, note: 'a cleaning bar' });
    const poured = asPoured(rig.now);
    if (poured.kind !== 'figures' || poured.superfat === null) throw new Error('no figures');
    const { value, working, u, lyeHeavy } = poured.superfat;
    expect(entry?.kind === 'override' ? entry.body : null).toEqual({
      reason: 'may-be-lye-heavy',
      value: null,
      limit: null,
      note: 'a cleaning bar',
      superfat: {
        working: Math.round(1e6 * working),
        least: Math.round(1e6 * (Math.min(value, working) - 2 * u)),
        chance: Math.round(1e6 * lyeHeavy),
      },
    });
    expect(upcast(JSON.parse(JSON.stringify(entry)))).toMatchObject({ ok: true, entry: { kind: 'override' } });
    expect(rig.code('join', { held: true })).toBe('joined');
    expect(review(rig.entries).joining?.overrides).toMatchObject([
      { reason: 'may-be-lye-heavy', superfat: { working: Math.round(1e6 * working) } },
    ]);
  });

  it('what a person said does not cover a batch that became worse', () => {
    const rig = made('1');
    rig.must('override', { reason: 'may-be-lye-heavy', held: true, note: '' });
    rig.must('lose', { vessel: rig.line('olive').plan.vessel, mass: 2_000 as never, cause: 'spill', note: '' });
    expect(holds(rig)).toContain('may-be-lye-heavy');
  });

  it('below zero is never joined, whatever a person says', () => {
    const rig = started(planAt('1')).weighAll('soda');
    rig.weigh('soda', rig.line('soda').plan.target / 1000 + 3);
    rig.keepOver();
    rig.makeLye();
    rig.lye = celsius(41);
    rig.oils = celsius(42);
    expect(isLyeHeavy(rig.now)).toBe(true);
    expect(holds(rig)).toEqual(['lye-heavy']);
    expect(rig.code('override', { reason: 'may-be-lye-heavy', held: true, note: '' })).toBe('no-such');
    expect(rig.code('join', { held: true })).toBe('lye-heavy');
  });

  it('an older override, which knew no superfat, still folds and tells', () => {
    const rig = made('5');
    rig.lye = celsius(52);
    rig.must('override', { reason: 'lye-too-hot', held: true, note: '' });
    const [entry] = rig.entries.slice(-1);
    expect(entry?.kind === 'override' ? Object.keys(entry.body).toSorted() : []).toEqual(['limit', 'note', 'reason', 'value']);
    expect(upcast(JSON.parse(JSON.stringify(entry))).ok).toBe(true);
  });
});
