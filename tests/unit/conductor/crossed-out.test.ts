import { describe, expect, it } from 'vitest';
import { MAIN, OLIVE, planOf, Rig, SHEA, SODA, WATER } from './rig';

const atReady = (): Rig => {
  const rig = new Rig();
  rig.withAlarms = true;
  return rig.start(planOf([OLIVE, SHEA, WATER])).rest(500);
};
/** Accepted, lifted, and undone while it is off the pan. */
const lifted = (): Rig => {
  const rig = atReady().pour(700).run(6).rest(0);
  const entry = rig.line('olive').contributions[0]?.entry;
  rig.send({ kind: 'strike', body: { entry: entry as never, reason: 'undone', note: '', held: true } }, 'maker');
  return rig.run(2);
};
const accepts = (rig: Rig): number => rig.kinds().filter((kind) => kind === 'weight-accepted').length;
const codes = (rig: Rig): readonly string[] => rig.seen.cards.map(({ code }) => code);

describe('a weight that was crossed out and still stands on the pan', () => {
  it('is not recorded a second time: an over-pour can only come out or be carried on with', () => {
    const rig = atReady().pour(705).run(4).take('cross-out').run(10);
    expect(rig.seen.phase).toBe('over');
    expect(codes(rig)).toEqual(['carry-on']);
    for (let turn = 0; turn < 20; turn += 1) rig.take('cross-out').run(1);
    expect(accepts(rig)).toBe(1);
    expect(rig.state.counts.overPours).toBe(1);
  });

  it('rings no alarm again: it was answered', () => {
    const rig = atReady().pour(705).run(4);
    expect(rig.state.alarms['over-pour']).toBeDefined();
    rig.take('cross-out').run(10);
    expect(rig.state.alarms).toEqual({});
  });

  it('asks nothing of the weight below it, which was accepted before and is as it was', () => {
    const rig = atReady().pour(700).run(6).pour(800).run(6);
    const entry = rig.line('shea').contributions[0]?.entry;
    rig.send({ kind: 'strike', body: { entry: entry as never, reason: 'something-on-the-pan', note: '', held: true } }, 'maker');
    rig.run(5);
    expect(rig.state).toMatchObject({ question: null, open: 'shea', alarms: {} });
    // What lay on the pan is taken off, and the line is weighed from where it began.
    rig.rest(700).pour(800).run(6).press('go-on').run(1);
    expect(rig.state.question).toBeNull();
    expect(rig.line('shea')).toMatchObject({ status: 'closed', outcome: 'within' });
    expect(rig.refusals).toEqual([]);
  });

  it('may be carried on with after all', () => {
    const rig = atReady().pour(705).run(4).take('cross-out').run(3).take('carry-on', false).run(0.2);
    expect(rig.line('olive')).toMatchObject({ actual: 205_000, outcome: 'over' });
  });

  it('is another weight once it has moved', () => {
    const rig = atReady().pour(705).run(4).take('cross-out').run(3).pour(707, 2).run(4);
    expect(codes(rig)).toEqual(['carry-on', 'cross-out', 'stop']);
    expect(rig.state.alarms['over-pour']).toBeDefined();
  });

  it('and then came back to the very same is another weight, too', () => {
    const rig = atReady().pour(705).run(4).take('cross-out').run(3).pour(700, 2).run(4).pour(705, 2).run(4);
    expect(codes(rig)).toEqual(['carry-on', 'cross-out', 'stop']);
  });

  it('is lifted and set down again: the same weight is still the one crossed out', () => {
    const rig = atReady().pour(705).run(4).take('cross-out').run(3).rest(0).rest(705);
    expect(rig.seen.phase).toBe('over');
    expect(codes(rig)).toEqual(['carry-on']);
  });

  it('comes back poured out, or as it was: its vessel is known by its mass, and counts from its old zero', () => {
    const rig = lifted().rest(500);
    expect(rig.seen).toMatchObject({ phase: 'ready', line: 'olive' });
    expect(rig.state.pans[MAIN]?.zero).toBe(500_000);
    expect(lifted().rest(700).state.pans[MAIN]).toMatchObject({ line: 'olive', zero: 500_000 });
  });

  it('anything that weighs between its zero and what it was may be another vessel: a person holds that it is the one', () => {
    const rig = lifted().rest(640).run(5);
    expect(rig.seen).toMatchObject({ phase: 'strange-vessel', cards: [{ code: 'it-is-vessel', hold: true }] });
    rig.take('it-is-vessel', true).run(0.2);
    expect(rig.state.pans[MAIN]?.zero).toBe(500_000);
    rig.pour(700, 3).run(6);
    expect(rig.seen).toMatchObject({ phase: 'ask', doubts: ['return-unlike'] });
    rig.press('go-on').run(0.2);
    expect(rig.line('olive')).toMatchObject({ actual: 200_000, outcome: 'within' });
  });

  it('was within and undone: it is not accepted by itself again, a person goes on', () => {
    const rig = atReady().pour(700).run(6);
    const entry = rig.line('olive').contributions[0]?.entry;
    rig.send({ kind: 'strike', body: { entry: entry as never, reason: 'undone', note: '', held: true } }, 'maker');
    rig.run(10);
    expect(rig.seen).toMatchObject({ phase: 'ask', line: 'olive' });
    expect(accepts(rig)).toBe(1);
    rig.press('go-on');
    expect(rig.line('olive')).toMatchObject({ actual: 200_000, outcome: 'within' });
  });
});

describe('the alarm of an over-pour', () => {
  it('has nothing to ring for where nothing is poured: at the gate of the hydroxide after an accepted line', () => {
    const rig = new Rig();
    rig.withAlarms = true;
    rig
      .start(planOf([OLIVE, SODA, WATER]))
      .rest(500)
      .pour(700)
      .run(8);
    expect(rig.seen).toMatchObject({ phase: 'gate', line: 'soda' });
    expect(rig.kinds()).not.toContain('alarm-raised');
    rig.rest(0).rest(500);
    expect(rig.kinds()).not.toContain('alarm-raised');
  });
});
