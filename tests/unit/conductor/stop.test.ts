import { describe, expect, it } from 'vitest';
import { FINE, line, MAIN, OLIVE, planOf, Rig, WATER } from './rig';

const poured = (): Rig =>
  new Rig()
    .start(planOf([OLIVE, WATER]))
    .rest(500)
    .pour(640)
    .run(3);

/** The scale's own zero key: the same things stand there, and it reads nothing from one frame to the next. */
const tared = (rig: Rig): Rig => rig.jump(0).run(5);

const finishes = (rig: Rig): void => {
  rig.pour(700).run(6);
  expect(rig.line('olive')).toMatchObject({ actual: 200_000 });
};

const isAsked = (rig: Rig): void => {
  rig.pour(700).run(6);
  expect(rig.seen).toMatchObject({ phase: 'ask', poured: 200_000 });
  rig.press('go-on');
  expect(rig.line('olive')).toMatchObject({ actual: 200_000 });
};

describe("the scale's own zero key in the middle of a pour", () => {
  it('stops everything until the pan was free and zeroed', () => {
    const rig = tared(poured());
    expect(rig.seen).toMatchObject({ phase: 'blocked', block: 'tare-pressed' });
    rig.rest(-640);
    expect(rig.seen).toMatchObject({ block: 'tare-pressed', goOn: null });
    rig.jump(0).run(5);
    expect(rig.seen.goOn).toEqual({ code: 'scale-zeroed', hold: false });
    rig.press('go-on').rest(640);
    isAsked(rig);
  });

  it('nobody saw the pan free: a person holds to it', () => {
    const rig = tared(poured());
    expect(rig.seen.goOn).toEqual({ code: 'scale-zeroed', hold: true });
    rig.press('go-on').run(1);
    expect(rig.seen.block).toBe('tare-pressed');
    rig.press('go-on', true).rest(640);
    isAsked(rig);
  });

  it('held to although the vessel stands there zeroed: the weights disagree and nothing is accepted', () => {
    const rig = tared(poured()).press('go-on', true).run(2).pour(60).run(10);
    expect(rig.kinds()).not.toContain('weight-accepted');
    rig.pour(200).run(10);
    expect(rig.kinds()).not.toContain('weight-accepted');
  });

  it('was a lift quicker than the frames: back at the weight it had, a person says so', () => {
    const rig = tared(poured()).rest(640);
    expect(rig.seen).toMatchObject({ block: 'tare-pressed', goOn: { code: 'after-replug', hold: true } });
    rig.press('go-on', true);
    finishes(rig);
  });
});

const back = (grams: number): Rig => {
  const rig = poured();
  rig.step({ kind: 'disarm', why: 'reconnect', instrument: MAIN });
  rig.pan(MAIN).seq = 0;
  return rig.rest(grams);
};

describe('a scale that was away', () => {
  it('and shows what it did goes on by one press', () => {
    const rig = back(640);
    expect(rig.seen).toMatchObject({ block: 'disarmed', goOn: { code: 'after-replug', hold: false } });
    rig.press('go-on');
    finishes(rig);
  });

  it('and shows another weight is asked about; what was poured meanwhile leaves the line in doubt', () => {
    const rig = back(670);
    expect(rig.seen.cards.map(({ code, hold }) => [code, hold])).toEqual([
      ['poured-meanwhile', true],
      ['put-right', false],
    ]);
    // As the number says it, not with the vessel.
    expect(rig.seen.cards[0]?.params).toEqual({ was: 140_000, now: 170_000 });
    rig.take('poured-meanwhile').pour(700).run(6);
    expect(rig.seen).toMatchObject({ phase: 'ask', doubts: ['after-replug'] });
  });
});

describe('A8: another unit in the middle of a pour', () => {
  it('blocks loudly and is no weight, until the unit is right again and a person has noted it', () => {
    const rig = poured();
    rig.pan(MAIN).unit = 'oz';
    rig.run(4);
    expect(rig.seen).toMatchObject({ phase: 'blocked', block: 'unit-changed', poured: null });
    rig.pan(MAIN).unit = 'g';
    rig.run(4);
    expect(rig.seen).toMatchObject({ block: 'unit-changed', goOn: { code: 'unit-noted' } });
    expect(rig.kinds()).not.toContain('weight-accepted');
    rig.press('go-on');
    finishes(rig);
  });

  it('sounds while a line is weighed on that scale, and not while it is not in use', () => {
    const scent = line('scent', { class: 'fragrance', target: 20, tolerance: 0.2, vessel: 'cup', more: { scale: 'fine' } });
    const rig = new Rig();
    rig.withAlarms = true;
    rig.start(planOf([scent, OLIVE])).rest(100, FINE);
    rig.pan(MAIN).unit = 'oz';
    rig.run(4);
    expect(rig.state.alarms).toEqual({});
    rig.pour(120, 6, FINE).run(6);
    expect(rig.line('scent').status).toBe('closed');
    expect(rig.seen).toMatchObject({ line: 'olive', block: 'unit-changed' });
    expect(Object.keys(rig.state.alarms)).toEqual(['unit-changed']);
  });
});
