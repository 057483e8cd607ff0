import { describe, expect, it } from 'vitest';
import { grams, mg } from '#lib/units/mass';
import type { Weighed } from '#lib/work/batch/index';
import { review } from '#lib/work/batch/review';
import { joinedAs } from './joined';
import { FINE, MAIN, OLIVE, planOf, SODA, vesselId, WATER, type Rig } from './rig';

/** Pot 500 g; 420 g of batter in it. */
const joined = (): Rig => joinedAs(planOf([OLIVE, WATER, SODA]), 'medium');
/** What "go on" asks where no portion waits to be taken. */
const CLOSE = { code: 'close-batch', hold: false } as const;
const masses = (rig: Rig): readonly number[] => rig.state.parts.map(({ mass }) => mass);

describe('portions by what the pot of batter lost on the pan', () => {
  it('are taken by a person, each from where the one before ended, with the weights and the strip’s scale in the record', () => {
    const rig = joined();
    expect(rig.seen).toMatchObject({ phase: 'pouring-moulds', vessel: 'pot', portion: { at: 'set-pot', mass: null }, goOn: CLOSE });
    expect(rig.seen.say).toMatchObject({ code: 'set-down', params: { vessel: 'pot', scale: 'main' } });
    rig.rest(920);
    expect(rig.seen).toMatchObject({ portion: { at: 'stands' }, goOn: CLOSE });
    rig.rest(0);
    expect(rig.seen.portion?.at).toBe('off');
    rig.rest(770);
    expect(rig.seen).toMatchObject({ portion: { at: 'offer', mass: 150_000 }, goOn: { code: 'take-portion', hold: false } });
    expect(rig.seen.say).toMatchObject({ code: 'portion', params: { number: 1, net: 150_000 } });
    rig.run(60);
    expect(masses(rig)).toEqual([]);
    rig.press('go-on').run(1);
    expect(rig.seen.portion).toEqual({ at: 'stands', mass: null });
    rig.rest(670).press('go-on').run(1);
    expect(masses(rig)).toEqual([150_000, 100_000]);
    expect(rig.state.vessels[vesselId('pot')]?.contents).toBe(170_000);
    const split = rig.entries.find((entry) => entry.kind === 'split');
    expect(split?.body).toMatchObject({ weighed: { gross: 770_000, zero: 920_000, net: 150_000, instrument: MAIN } });
    expect(split?.body).not.toHaveProperty('source');
    expect(review(rig.entries).parts).toMatchObject([{ byHand: false }, { byHand: false }]);
    expect(rig.refusals).toEqual([]);
  });

  it('a settled weight makes one portion, however often it is pressed', () => {
    const rig = joined().rest(920).rest(770).run(1);
    const { entries } = rig;
    rig.press('go-on').press('go-on');
    const body = entries.find((entry) => entry.kind === 'split')?.body;
    rig.send({ kind: 'split', body: { ...body!, vessel: vesselId('pot') } }, 'maker');
    expect(masses(rig)).toEqual([150_000]);
    expect(rig.refusals).toEqual(['split already-done']);
  });

  it('is what the scale says now, or nothing: no other weight, mass or number of portions is taken', () => {
    const rig = joined().rest(920).rest(770).run(1);
    const taken: unknown[] = [];
    rig.press('go-on');
    const { weighed, vessel } = rig.entries.find((entry) => entry.kind === 'split')!.body;
    rig.rest(670).run(1);
    const { episode } = rig.seen;
    const now = { ...weighed!, gross: grams(670), zero: grams(770), net: grams(100), episode };
    const tried = (parts: readonly number[], change: Partial<Weighed> = {}): void => {
      const body = { vessel, parts: parts.map((mass, at) => ({ name: `n${at}`, mass: mg(mass) })), weighed: { ...now, ...change } };
      const decision = rig.send({ kind: 'split', body }, 'maker');
      taken.push(decision.ok ? 'taken' : decision.refusal.code);
    };
    tried([100_000], { episode: episode + 1 });
    tried([100_000], { gross: grams(660) });
    tried([100_000], { zero: grams(800) });
    tried([120_000], { zero: grams(790), net: grams(100) });
    tried([50_000, 50_000]);
    tried([100_000]);
    expect(taken).toEqual(['not-settled', 'not-settled', 'bad-number', 'bad-number', 'bad-number', 'taken']);
  });

  it('“back” says that it was no portion, and after something was put in a person says from where it counts', () => {
    const rig = joined().rest(920).rest(910).run(1).press('back').run(1);
    expect(rig.seen.portion?.at).toBe('stands');
    rig.rest(930);
    expect(rig.seen).toMatchObject({ portion: { at: 'more', mass: null }, goOn: { code: 'count-from-here' } });
    rig.run(1).press('go-on').rest(830).run(1).press('go-on').run(1);
    expect(masses(rig)).toEqual([100_000]);
  });

  it('what was typed meanwhile is not counted again', () => {
    const rig = joined().rest(920);
    const parts = [{ name: 'log', mass: 120_000 as never }];
    rig.send({ kind: 'split', body: { vessel: vesselId('pot'), parts } }, 'maker');
    expect(rig.run(2).seen.portion?.at).toBe('more');
    rig.rest(800);
    expect(rig.seen.portion).toEqual({ at: 'stands', mass: null });
    rig.rest(700).run(1).press('go-on').run(1);
    expect(masses(rig)).toEqual([120_000, 100_000]);
    expect(review(rig.entries).parts).toMatchObject([{ byHand: true }, { byHand: false }]);
  });

  it('a mould in place of the pot is no portion, nor is a pot that came back to another scale', () => {
    const rig = joined().rest(920).rest(0).rest(310);
    expect(rig.seen).toMatchObject({ portion: { at: 'strange', mass: null }, goOn: null });
    rig.rest(0).rest(770, FINE);
    expect(rig.seen).toMatchObject({ portion: { at: 'off', mass: null }, goOn: CLOSE });
  });

  it('after the scale was unplugged or the program restarted nothing is counted from before', () => {
    const rig = joined().rest(920);
    rig.step({ kind: 'disarm', why: 'reconnect', instrument: MAIN });
    rig.rest(770);
    expect(rig.seen.portion).toEqual({ at: 'stands', mass: null });
    rig.rest(0).restart().run(1);
    // The pot is asked about: what it holds by the record is on the screen, not nothing.
    expect(rig.seen).toMatchObject({ phase: 'resume', vessel: 'pot', say: { code: 'resume', params: { vessel: 'pot' } } });
    rig.take('resume-as-recorded').run(2).rest(700);
    expect(rig.seen.portion).toEqual({ at: 'stands', mass: null });
    rig.rest(600).run(1).press('go-on').run(1);
    expect(masses(rig)).toEqual([100_000]);
  });

  it('without a word from the scale, or with more than it carries, portions are typed', () => {
    const rig = joined().rest(920);
    rig.pan(MAIN).range = 'over';
    rig.run(2);
    expect(rig.seen.portion).toEqual({ at: 'too-heavy', mass: null });
    rig.pan(MAIN).range = 'in';
    rig.pan(MAIN).speaking = false;
    rig.run(5);
    expect(rig.seen.portion).toEqual({ at: 'no-scale', mass: null });
  });

  it('of a probe that leans in the pot nothing is taken', () => {
    const rig = joined().rest(920);
    rig.probesInVessel = [vesselId('pot')];
    rig.rest(770);
    expect(rig.seen).toMatchObject({ portion: { at: 'probe', mass: null }, goOn: null });
  });
});
