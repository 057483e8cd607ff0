import { describe, expect, it } from 'vitest';
import { MAIN, OLIVE, planOf, Rig, WATER } from './rig';

const poured = (): Rig =>
  new Rig()
    .start(planOf([OLIVE, WATER]))
    .rest(500)
    .pour(640)
    .run(3);
const ask = (rig: Rig, what: 'away' | 'return'): Rig => {
  rig.step({ kind: 'ask', ask: what });
  return rig;
};
const codes = (rig: Rig): readonly string[] => rig.seen.cards.map(({ code }) => code);

describe('away and back', () => {
  it('keeps the settled weight; the same on return goes on by one press', () => {
    const rig = ask(poured(), 'away').run(20);
    expect(rig.state.away).toMatchObject({ line: 'olive', gross: 640_000 });
    rig.press('go-on').run(1);
    expect(rig.state.away).toBeNull();
    rig.pour(700).run(6);
    expect(rig.line('olive').contributions.at(-1)).toMatchObject({ how: 'by-itself', net: 200_000 });
  });

  it('accepts nothing meanwhile', () => {
    const rig = ask(poured(), 'away').run(1).pour(700).run(10);
    expect(rig.seen.phase).toBe('away');
    expect(rig.kinds()).not.toContain('weight-accepted');
  });

  it('tells no amount of the line while its vessel stands elsewhere, and the same one when it is back', () => {
    const rig = ask(poured(), 'away').run(1);
    expect(rig.seen.left).not.toBeNull();
    const { left } = rig.seen;
    rig.rest(0);
    expect(rig.seen).toMatchObject({ phase: 'away', poured: null, total: null, left: null });
    rig.rest(640);
    expect(rig.seen).toMatchObject({ phase: 'away', left });
  });

  it('another weight on return is asked about', () => {
    const rig = ask(poured(), 'away').run(1).rest(655);
    rig.press('go-on').run(1);
    expect(rig.seen).toMatchObject({ phase: 'returning', goOn: { code: 'next-card' } });
    expect(rig.seen.cards[0]).toMatchObject({ code: 'return-accept', hold: true, params: { was: 640_000, now: 655_000 } });
    rig.take('return-accept', false).run(0.2);
    expect(rig.state.away).not.toBeNull();
    rig.take('return-accept').run(0.2);
    expect(rig.state.away).toBeNull();
    expect(rig.entries.find(({ kind }) => kind === 'came-back')?.body).toEqual({ same: false, was: 640_000, now: 655_000 });
  });

  it('left while the scale moved, no weight was kept: on return it is asked about, whatever stands there', () => {
    const rig = poured().pour(690, 2);
    ask(rig, 'away').run(20);
    expect(rig.state.away).toMatchObject({ gross: null });
    rig.press('go-on').run(1).press('go-on').run(1);
    expect(rig.state.away).not.toBeNull();
    expect(codes(rig)).toEqual(['return-accept', 'return-put-right']);
    rig.take('return-accept').run(0.2);
    expect(rig.entries.find(({ kind }) => kind === 'came-back')?.body).toEqual({ same: false, was: null, now: 690_000 });
  });

  it('left while the scale was silent, it is asked about just the same', () => {
    const rig = poured();
    rig.pan(MAIN).speaking = false;
    ask(rig.run(1), 'away').run(1);
    expect(rig.state.away).toMatchObject({ gross: null });
    rig.pan(MAIN).speaking = true;
    rig.run(4).press('go-on').run(1);
    expect(codes(rig)).toEqual(['return-accept', 'return-put-right']);
  });

  it('back while the scale moves still: a person may go on, and the line is theirs to take', () => {
    const rig = ask(poured(), 'away').run(2);
    rig.pan(MAIN).motion = 'moving';
    rig.run(2).press('go-on').run(1).take('return-accept').run(0.2);
    expect(rig.state.away).toBeNull();
    rig.pan(MAIN).motion = 'stable';
    rig.pour(700).run(8);
    expect(rig.seen).toMatchObject({ phase: 'ask', doubts: ['return-unlike'] });
  });

  it('with nothing to weigh there is nothing to compare', () => {
    const rig = ask(new Rig().start(planOf([{ ...OLIVE, mode: 'by-hand' }, WATER])), 'away').run(1);
    rig.press('go-on').run(0.2);
    expect(rig.state.away).toBeNull();
  });
});
