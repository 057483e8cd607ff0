import { describe, expect, it } from 'vitest';
import { canonical } from '#lib/record/canonical';
import { asPoured } from '#lib/work/batch/poured/index';
import { review } from '#lib/work/batch/review';
import { upcast } from '#lib/work/batch/upcast';
import type { Entry } from '#lib/work/batch/index';
import { planOf as typedPlan, started, type BatchRig } from '#tests/support/batch';
import { formula, planned } from '#tests/support/formula';

const whole = (rig: BatchRig): BatchRig => {
  rig.weighAll().makeLye().join();
  rig.must('close', {});
  return rig;
};
const computed = (): BatchRig =>
  started(planned(formula({ moulds: [{ mould: 'short-loaf', count: 1, fill: '90', pattern: 'plain-pour' }] })).plan);

describe('a closed batch', () => {
  const rig = whole(computed());
  const closed = rig.entries.at(-1);
  const kept = closed?.kind === 'closed' ? closed.body.poured : undefined;

  it('keeps what it came to, with its method, in whole numbers a line can hold', () => {
    const answer = asPoured(rig.now);
    if (answer.kind !== 'figures' || kept === undefined) throw new Error('nothing kept');
    expect(kept.method).toBe(answer.method);
    expect(kept.superfat?.working).toBe(Math.round(1e6 * (answer.superfat?.working ?? 0)));
    expect(kept.volume?.value).toBe(Math.round(1e3 * (answer.volume?.value ?? 0)));
    expect(kept.limits.map(({ what }) => what)).toEqual(['superfat', 'lye', 'full']);
    expect(canonical(JSON.parse(JSON.stringify(closed)))).toContain('"poured"');
    const read = upcast(JSON.parse(JSON.stringify(closed)));
    expect(read.ok && read.entry.kind === 'closed' ? read.entry.body.poured : null).toEqual(kept);
  });

  it('shows what it kept, not what a later program would make of it', () => {
    const older = { ...kept, method: 'another method', superfat: { ...kept?.superfat, working: 12_345 } };
    const entries = rig.entries.map((one) => (one.kind === 'closed' ? ({ ...one, body: { ...one.body, poured: older } } as Entry) : one));
    expect(review(entries).poured).toMatchObject({
      kind: 'figures',
      kept: true,
      result: { method: 'another method', superfat: { working: 12_345 } },
    });
  });

  it('closed by an older program, or with what nobody of ours wrote, is worked out anew', () => {
    for (const poured of [undefined, { nonsense: 1 }]) {
      const entries = rig.entries.map((one) => {
        if (one.kind !== 'closed') return one;
        const { poured: _kept, ...body } = one.body;
        return { ...one, body: poured === undefined ? body : { ...body, poured } } as Entry;
      });
      expect(review(entries).poured).toMatchObject({
        kind: 'figures',
        kept: false,
        result: { superfat: { working: kept?.superfat?.working } },
      });
    }
  });
});

describe('a batch that is not closed', () => {
  it('says what is still to come', () => {
    expect(review(computed().weighAll('water').entries).poured).toMatchObject({ kind: 'figures', kept: false, toCome: ['water', 'soda'] });
  });

  it('of a typed plan is not worked out, closed or not', () => {
    expect(review(started().entries).poured).toEqual({ kind: 'typed-plan', line: null });
    const rig = whole(started(typedPlan('alder-and-oat')));
    expect(review(rig.entries).poured).toEqual({ kind: 'typed-plan', line: null });
  });
});
