import { describe, expect, it } from 'vitest';
import { grams, mg } from '#lib/units/mass';
import { BatchRig, MAIN, changed, lineId, planOf, started, vesselId } from '#tests/support/batch';

const start = (plan = planOf('meadowsweet')) => new BatchRig().code('start', { mark: '1', plan, realm: 'test', bench: 'b' });

describe('starting', () => {
  it('says which scales were never checked', () => {
    const rig = new BatchRig();
    rig.more = { scales: [MAIN, 'scale-fine' as never], checks: { [MAIN]: 'entry-0' as never } };
    rig.must('start', { mark: '1', plan: planOf('meadowsweet'), realm: 'practice', bench: 'b' });
    expect(rig.entries[0]).toMatchObject({ realm: 'practice', body: { uncheckedScales: ['scale-fine'] } });
  });

  it.each([
    ['no lines', { ...planOf('meadowsweet'), lines: [] }, 'no-such'],
    ['a line into no vessel', changed(planOf('meadowsweet'), 'water', { vessel: vesselId('bath') }), 'no-such'],
    ['a line carried into no vessel', changed(planOf('meadowsweet'), 'water', { into: vesselId('bath') }), 'no-such'],
    ['no target', changed(planOf('meadowsweet'), 'water', { target: mg(0) }), 'bad-number'],
    ['no tolerance', changed(planOf('meadowsweet'), 'water', { tolerance: mg(0) }), 'bad-number'],
    ['a limit below its target', changed(planOf('meadowsweet'), 'water', { upper: grams(100) }), 'bad-number'],
    ['a fraction of a milligram', changed(planOf('meadowsweet'), 'water', { target: 1.5 as never }), 'bad-number'],
    [
      'two lines of one name',
      { ...planOf('meadowsweet'), lines: [...planOf('meadowsweet').lines, ...planOf('meadowsweet').lines] },
      'wrong-order',
    ],
  ])('refuses a plan with %s', (_name, plan, code) => {
    expect(start(plan)).toBe(code);
  });

  it('once', () => {
    expect(started().code('start', { mark: '1', plan: planOf('slate'), realm: 'test', bench: 'b' })).toBe('wrong-state');
    expect(new BatchRig().code('note', { text: 'too early' })).toBe('wrong-state');
  });
});

describe('replanning', () => {
  it('moves the target; what was planned stays beside it', () => {
    const rig = started().weighAll('olive');
    const coconut = { ...rig.line('coconut').plan, target: grams(290), upper: grams(299) };
    expect(rig.code('replan', { lines: [coconut], reason: ' ' })).toBe('no-such');
    expect(rig.code('replan', { lines: [coconut], reason: 'remedy' })).toBe('replanned line-reopened');
    expect(rig.now.open).toBe('coconut');
    expect(rig.line('coconut')).toMatchObject({ planned: { target: 280_000 }, plan: { target: 290_000 }, actual: 280_000 });
    expect(rig.now.plan.lines[0]?.target).toBe(280_000);
  });

  it('a line its moved target finds complete needs no pour', () => {
    const rig = started();
    rig.setVessel('coconut');
    rig.accept('coconut', 250, { part: true });
    const lower = { ...rig.line('coconut').plan, target: grams(250), upper: null };
    expect(rig.code('replan', { lines: [lower], reason: 'out of stock' })).toBe('replanned line-closed');
    expect(rig.now.open).toBe('shea');
  });

  it('adds a line at the end, and turns none into another material', () => {
    const rig = started();
    const more = { ...rig.line('olive').plan, id: lineId('olive-2'), target: grams(50), upper: null };
    rig.must('replan', { lines: [more], reason: 'scaled up' });
    expect(rig.now.order.at(-1)).toBe('olive-2');
    const other = { ...rig.line('olive').plan, material: rig.line('shea').plan.material };
    expect(rig.code('replan', { lines: [other], reason: 'swap' })).toBe('no-such');
  });
});
