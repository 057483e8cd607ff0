import { describe, expect, it } from 'vitest';
import type { PlanMould } from '#lib/work/batch/pouring/types';
import { mg } from '#lib/units/mass';
import { joinedAs, readyToJoin } from './joined';
import { MAIN, OLIVE, planOf, SODA, WATER, type Rig } from './rig';

const PLAN = planOf([OLIVE, WATER, SODA]);
const LOG: PlanMould = { n: 1, mould: 'log', name: 'Log', brimMl: 400, mass: mg(200_000), pattern: 'plain-pour' };
const shown = (rig: Rig): readonly (string | undefined)[] => [rig.seen.portion?.at, ...rig.seen.cards.map(({ code }) => code)];
const CARDS = ['closing', 'close-batch', 'pour-on'];

describe('a joined batch is closed by go on, back and hold alone', () => {
  it('with no scale and no portion weighed: asked, each card read aloud, and only a held card closes it', () => {
    const rig = joinedAs(PLAN, 'medium');
    rig.pan(MAIN).speaking = false;
    rig.run(5);
    expect(rig.seen).toMatchObject({ portion: { at: 'no-scale' }, goOn: { code: 'close-batch', hold: false } });
    rig.press('go-on').run(1);
    expect(shown(rig)).toEqual(CARDS);
    expect(rig.seen.say?.code).toBe('closing');
    rig.press('go-on').run(1);
    expect(rig.seen.say).toMatchObject({ code: 'card', params: { card: 'close-batch' } });
    rig.press('go-on').run(1);
    expect(rig.seen.say).toMatchObject({ code: 'card', params: { card: 'pour-on' } });
    rig.take('close-batch', false).press('back').run(1).press('back').run(1).press('go-on').run(1);
    expect([rig.state.status, rig.seen.selected]).toEqual(['joined', 0]);
    rig.press('go-on', true).run(1);
    expect([rig.state.status, rig.seen.phase, rig.refusals]).toEqual(['closed', 'done', []]);
    expect(rig.seen.say).toMatchObject({ code: 'closed', params: { mark: '26-1' } });
  });

  it('“not yet” goes back to the pour, whose zero was kept', () => {
    const rig = joinedAs(PLAN, 'medium').rest(920).press('go-on').run(1);
    expect(shown(rig)).toEqual(CARDS);
    rig.press('back').run(1).press('go-on', true).run(1);
    expect(shown(rig)).toEqual(['stands']);
    rig.rest(770);
    expect(rig.seen.portion).toMatchObject({ at: 'offer', mass: 150_000 });
  });

  it('a portion that settles meanwhile is asked about first', () => {
    const rig = joinedAs(PLAN, 'medium').rest(920).press('go-on').run(1).rest(770);
    expect(rig.seen).toMatchObject({ portion: { at: 'offer', mass: 150_000 }, goOn: { code: 'take-portion' }, cards: [] });
    rig.press('go-on').run(1);
    expect(rig.state.parts).toHaveLength(1);
    expect(shown(rig)).toEqual(['stands']);
  });

  it('a press while the pot moves, or with a stranger on the pan, asks nothing', () => {
    const rig = joinedAs(PLAN, 'medium').rest(920);
    rig.pan(MAIN).truth = 850;
    rig.run(0.2);
    expect(rig.seen).toMatchObject({ portion: { at: 'moving' }, goOn: null });
    rig.rest(0).rest(310);
    expect(rig.seen).toMatchObject({ portion: { at: 'strange' }, goOn: null });
  });

  it('one with moulds too, whatever of them is not weighed; stopped by what went wrong with the batter', () => {
    const rig = joinedAs({ ...PLAN, moulds: [LOG] }, 'medium');
    expect(rig.seen).toMatchObject({ portion: { at: 'set-down' }, goOn: { code: 'close-batch' } });
    rig.press('go-on').run(1);
    expect(shown(rig)).toEqual(CARDS);
    rig.send({ kind: 'stamp-trace', body: { mark: 'wrong', note: '' } }, 'maker');
    expect(rig.run(1).seen).toMatchObject({ phase: 'trouble', say: { code: 'trouble', params: { trouble: 'which' } } });
    rig.take('seizing').run(1);
    expect(rig.seen.say).toMatchObject({ code: 'trouble', params: { trouble: 'seizing' } });
    rig.take('trace-thick').run(1);
    expect(shown(rig)).toEqual(['set-down']);
  });

  it.each([
    ['park', { reason: 'supper' }, 'parked'],
    ['abandon', { reason: 'spilt', held: true }, 'stopped'],
  ] as const)('ended otherwise it is told aloud as well: %s', (kind, body, code) => {
    const rig = joinedAs(PLAN, 'medium');
    rig.send({ kind, body }, 'maker');
    expect(rig.run(1).seen).toMatchObject({ phase: 'idle', say: { code, params: { mark: '26-1' } } });
  });

  it('trace is asked for aloud when lye and oils are joined, and a start tells of no closing before it', () => {
    const rig = readyToJoin(PLAN);
    rig.send({ kind: 'join', body: { held: true } }, 'maker');
    expect(rig.run(1).seen).toMatchObject({ phase: 'trace', say: { code: 'trace' } });
    rig.take('trace-thin').run(2).press('go-on').run(1).press('go-on').press('go-on', true).run(1);
    expect(rig.state.status).toBe('closed');
    expect(rig.restart().run(1).seen).toMatchObject({ phase: 'done', say: null });
  });
});
