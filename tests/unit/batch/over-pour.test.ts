import { describe, expect, it } from 'vitest';
import { grams } from '#lib/units/mass';
import type { Decision } from '#lib/work/batch/index';
import { MAIN, changed, lineId, planOf, started } from '#tests/support/batch';

const codeOf = (decision: Decision) => (decision.ok ? decision.drafts.map(({ kind }) => kind).join(' ') : decision.refusal.code);
const coconut = lineId('coconut');

const poured = (net: number, plan = planOf('alder-and-oat')) => {
  const rig = started(plan);
  rig.setVessel('coconut');
  const decision = rig.accept('coconut', net);
  return { rig, decision };
};

describe('over-pour', () => {
  it.each([
    ['calm inside the formula’s limits', 286, 'over-pour', false],
    ['calm at the limit itself', 288.5, 'over-pour', false],
    ['red past the limit', 288.6, 'over-pour-red', true],
  ])('%s', (_name, net, code, red) => {
    const { rig, decision } = poured(net);
    expect(codeOf(decision)).toBe('weight-accepted alarm-raised');
    expect(rig.now.alarms[code as 'over-pour']).toMatchObject({ line: 'coconut', silenced: false });
    expect(rig.now.over).toMatchObject({ line: 'coconut', by: grams(net) - grams(280), red });
  });

  it('any is red while nobody has computed the limits', () => {
    const { rig } = poured(283, changed(planOf('alder-and-oat'), 'coconut', { upper: null }));
    expect(rig.now.over).toMatchObject({ red: true });
  });

  it('nothing goes on before it is answered', () => {
    const { rig } = poured(286);
    expect(codeOf(rig.accept('coconut', 290))).toBe('needs-answer');
    expect(codeOf(rig.setVessel('coconut'))).toBe('needs-answer');
    expect(rig.code('join', { held: true })).toBe('needs-answer');
    expect(rig.code('end-alarm', { code: 'over-pour' })).toBe('needs-answer');
    expect(rig.code('silence', { code: 'over-pour' })).toBe('alarm-silenced');
    expect(rig.now.over).not.toBeNull();
  });

  it('carry on: calm needs no hold, the line closes as over and the next is zeroed', () => {
    const { rig } = poured(286);
    expect(rig.code('answer-over', { line: coconut, choice: 'carry-on', held: false })).toBe(
      'over-answered alarm-ended line-closed vessel-set',
    );
    expect(rig.line('coconut')).toMatchObject({ status: 'closed', outcome: 'over', actual: 286_000 });
    expect(rig.now).toMatchObject({ over: null, alarms: {}, open: 'shea' });
    expect(rig.now.pans[MAIN]).toMatchObject({ line: 'shea', zero: 928_500 });
  });

  it('carry on with the vessel off the pan: the next line is not zeroed on what the scale shows', () => {
    const { rig } = poured(286);
    rig.stands = null;
    expect(rig.code('answer-over', { line: coconut, choice: 'carry-on', held: false })).toBe('over-answered alarm-ended line-closed');
  });

  it('carry on past the limits is held', () => {
    const { rig } = poured(300);
    expect(rig.code('answer-over', { line: coconut, choice: 'carry-on', held: false })).toBe('needs-hold');
    expect(rig.code('answer-over', { line: coconut, choice: 'carry-on', held: true })).toContain('over-answered');
  });

  it('cross out: both weights show for ever, and the pour is weighed again from its own zero', () => {
    const { rig } = poured(300);
    expect(rig.code('answer-over', { line: coconut, choice: 'cross-out', held: true })).toBe('over-answered alarm-ended struck vessel-set');
    expect(rig.now.pans[MAIN]).toMatchObject({ line: 'coconut', zero: 642_500 });
    expect(rig.line('coconut')).toMatchObject({ actual: 0, status: 'open' });
    expect(codeOf(rig.accept('coconut', 281))).toBe('weight-accepted line-closed vessel-set');
    expect(rig.line('coconut').contributions.map(({ net, struck }) => [net, struck !== null])).toEqual([
      [300_000, true],
      [281_000, false],
    ]);
    expect(rig.vessel('oils-pot').contents).toBe(281_000);
  });

  it('cross out after the vessel was lifted: it still counts from its own zero when it comes back', () => {
    const rig = started();
    rig.setVessel('coconut');
    rig.accept('coconut', 280);
    rig.accept('shea', 140);
    rig.lift('shea');
    expect(rig.now.pans[MAIN]).toBeUndefined();
    rig.must('answer-over', { line: lineId('shea'), choice: 'cross-out', held: true });
    // Some was scooped out meanwhile: the pot comes back with 119 g of it.
    expect(codeOf(rig.setVessel('shea', 642.5 + 280 + 119))).toBe('vessel-set');
    expect(rig.now.pans[MAIN]).toMatchObject({ line: 'shea', zero: 922_500 });
    const all = rig.weighed('shea', 119.2);
    expect(codeOf(rig.accept('shea', 0, { weighed: all }))).toContain('line-closed');
    expect(rig.vessel('oils-pot').contents).toBe(399_200);
  });

  it('typed by hand it has the same answers', () => {
    const rig = started();
    const typed = { net: grams(300), text: '300', unit: 'g' } as const;
    rig.must('type-weight', { line: coconut, typed, readBack: true, part: false });
    expect(rig.now.over).toMatchObject({ line: 'coconut', by: 20_000, red: true });
    expect(rig.code('answer-over', { line: coconut, choice: 'cross-out', held: true })).toBe('over-answered alarm-ended struck');
    expect(rig.line('coconut')).toMatchObject({ actual: 0, status: 'open' });
  });

  it('only the line that is over is answered', () => {
    const { rig } = poured(286);
    expect(rig.code('answer-over', { line: lineId('shea'), choice: 'carry-on', held: true })).toBe('no-such');
    rig.must('answer-over', { line: coconut, choice: 'carry-on', held: true });
    expect(rig.code('answer-over', { line: coconut, choice: 'carry-on', held: true })).toBe('no-such');
  });

  it('over by parts counts the whole line', () => {
    const rig = started();
    rig.setVessel('coconut');
    rig.accept('coconut', 200, { part: true });
    rig.accept('coconut', 95);
    expect(rig.now.over).toMatchObject({ by: 15_000, red: true });
    rig.must('answer-over', { line: coconut, choice: 'cross-out', held: true });
    expect(rig.line('coconut').actual).toBe(200_000);
    expect(rig.now.pans[MAIN]?.zero).toBe(842_500);
  });

  it('a replan may come before the answer', () => {
    const { rig } = poured(300);
    const plan = { ...rig.line('olive').plan, target: grams(405) };
    expect(rig.code('replan', { lines: [plan], reason: 'remedy: more olive' })).toBe('replanned');
    expect(rig.line('olive')).toMatchObject({ plan: { target: 405_000 }, planned: { target: 400_000 } });
    expect(rig.now.over).not.toBeNull();
  });
});
