import { describe, expect, it } from 'vitest';
import { MAIN, OLIVE, planOf, Rig, SHEA, WATER } from './rig';

/** Olive was accepted and has lost 20 g since: a person is asked whether its weight stands. */
const asked = (): Rig => {
  const rig = new Rig()
    .start(planOf([OLIVE, SHEA, WATER]))
    .rest(500)
    .pour(700)
    .run(6)
    .rest(680, undefined, 5);
  expect(rig.state.question).toMatchObject({ why: 'shifted-down' });
  return rig;
};

const kept = (rig: Rig): Rig => {
  rig.run(1).take('keep-weight').run(1);
  expect(rig.state).toMatchObject({ question: null, open: 'shea' });
  expect(Math.abs((rig.state.pans[MAIN]?.zero ?? 0) - 680_000)).toBeLessThan(100);
  return rig;
};

const shea = (rig: Rig) => {
  const { status, actual } = rig.line('shea');
  return { status, grams: Math.round(actual / 1_000) };
};

describe('a weight that was questioned', () => {
  it('is named on the screen and aloud: its line, and the vessel it is in', () => {
    const { seen } = asked();
    expect(seen).toMatchObject({ phase: 'question', line: 'olive', vessel: 'pot', left: null, say: { params: { vessel: 'pot' } } });
  });
});

describe('a weight that was questioned and kept', () => {
  it('lets the next line go on from what the question told', () => {
    const rig = kept(asked()).pour(780).run(6);
    expect(shea(rig)).toEqual({ status: 'closed', grams: 100 });
  });

  it('leaves to a person what came in while the question stood', () => {
    const rig = kept(asked().rest(690)).pour(780).run(8);
    expect(rig.seen).toMatchObject({ phase: 'ask', doubts: ['return-unlike'] });
    rig.press('go-on').run(1);
    expect(shea(rig)).toEqual({ status: 'closed', grams: 100 });
  });

  it("takes as its own no more than the scale can tell: a drop that fell in meanwhile is a person's, too", () => {
    const drop = kept(asked().rest(680.27)).pour(780).run(8);
    expect(drop.seen).toMatchObject({ phase: 'ask', doubts: ['return-unlike'] });
    const still = kept(asked().rest(680.1)).pour(780).run(6);
    expect(shea(still)).toEqual({ status: 'closed', grams: 100 });
  });

  it('leaves to a person what came in while its scale was away, though no pour was followed then', () => {
    const rig = asked();
    rig.step({ kind: 'disarm', why: 'reconnect', instrument: MAIN });
    rig.pan(MAIN).speaking = false;
    rig.put(690);
    kept(rig).pan(MAIN).speaking = true;
    rig.run(4).take('poured-meanwhile').run(1).pour(780).run(8);
    expect(rig.seen).toMatchObject({ phase: 'ask', doubts: ['after-replug'] });
  });
});
