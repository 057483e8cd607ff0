import { describe, expect, it } from 'vitest';
import { grams, mg } from '#lib/units/mass';
import { MAIN, lineId, started } from '#tests/support/batch';

describe('by hand', () => {
  const typed = { net: grams(281), text: '281', unit: 'g' } as const;
  const body = { line: lineId('coconut'), typed, readBack: true, part: false };

  it('a typed weight is read back, counts, and says by hand for ever', () => {
    const rig = started();
    expect(rig.code('type-weight', { ...body, readBack: false })).toBe('needs-read-back');
    expect(rig.code('type-weight', body)).toBe('weight-typed line-closed');
    expect(rig.line('coconut')).toMatchObject({ actual: 281_000, byHand: true, outcome: 'within' });
    expect(rig.now.counts.byHand).toBe(1);
    rig.must('strike', { entry: rig.line('coconut').contributions[0]!.entry, reason: 'mistyped', note: '', held: false });
    expect(rig.line('coconut').contributions[0]).toMatchObject({ kind: 'typed', how: 'typed' });
    expect(rig.now.counts.byHand).toBe(1);
  });

  it.each([
    ['short', grams(250), {}, 'out-of-tolerance'],
    ['short, as a part', grams(250), { part: true }, 'weight-typed'],
    ['short, and fine', grams(250), { shortIsFine: true }, 'weight-typed line-closed'],
    ['over', grams(300), {}, 'weight-typed alarm-raised'],
    ['nothing', mg(0), {}, 'bad-number'],
    ['less than nothing', mg(-5), {}, 'bad-number'],
  ])('%s', (_name, net, more, code) => {
    expect(started().code('type-weight', { ...body, typed: { ...typed, net }, ...more })).toBe(code);
  });

  it('the pan of that vessel has no zero any more: it is set down anew', () => {
    const rig = started();
    rig.setVessel('coconut');
    rig.must('type-weight', body);
    expect(rig.now.pans).toEqual({});
    expect(rig.vessel('oils-pot').standing).toBeNull();
    expect(rig.setVessel('shea', 990).ok).toBe(true);
    expect(rig.now.pans[MAIN]).toMatchObject({ line: 'shea', zero: 990_000 });
  });

  it('a whole batch can be weighed by hand', () => {
    const rig = started();
    for (let open = rig.now.open; open !== null; open = rig.now.open) {
      const { plan } = rig.line(open);
      if (plan.material.class === 'hydroxide') rig.gate(open);
      rig.must('type-weight', { line: open, typed: { ...typed, net: plan.target }, readBack: true, part: false, held: true });
    }
    rig.makeLye().join();
    rig.must('close', {});
    expect(rig.now.counts.byHand).toBe(rig.now.order.length);
  });
});
