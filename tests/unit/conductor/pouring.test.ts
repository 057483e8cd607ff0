import { describe, expect, it } from 'vitest';
import { mg } from '#lib/units/mass';
import type { Plan } from '#lib/work/batch/index';
import { compositionOf } from '#lib/work/batch/moulds';
import type { Pattern, PlanMould } from '#lib/work/batch/pouring/types';
import { joinedAs, readyToJoin } from './joined';
import { FINE, line, MAIN, OLIVE, planOf, SODA, VESSELS, WATER, type Rig } from './rig';

const GREEN = line('green', {
  class: 'colourant',
  target: 4,
  tolerance: 0.2,
  vessel: 'cup',
  more: { phase: 'trace', scale: 'fine', part: 'green', upper: null },
});
const mould = (n: number, name: string, pattern: Pattern | null): PlanMould => ({
  n,
  mould: name,
  name,
  brimMl: 400,
  mass: mg(200_000),
  pattern,
});
/** Pot 500 g; 420 g of batter, half of it to be green; a log and a swirled tray. */
const plan = (log: Pattern | null = 'plain-pour'): Plan => ({
  ...planOf([OLIVE, WATER, SODA, GREEN], Object.values(VESSELS)),
  moulds: [mould(1, 'Log', log), mould(2, 'Tray', 'drop-swirl')],
  parts: [{ id: 'green', name: 'Green', ppm: 500_000 }],
});
const joined = (): Rig => joinedAs(plan(), 'medium');
const at = (rig: Rig) => [rig.seen.portion?.at, rig.seen.portion?.job?.key];
/** What stands there is taken off, and the next thing set down empty. */
const setDown = (rig: Rig, grams: number): Rig => rig.rest(0).rest(grams).run(1);
const takeIt = (rig: Rig): Rig => rig.run(1).press('go-on', true).run(1);

/** The green half parted off at 210 g and its colour weighed. */
const parted = (): Rig => {
  const rig = joined();
  takeIt(setDown(rig, 200).rest(410));
  rig.rest(100, FINE).pour(104, 6, FINE).run(6);
  expect([rig.refusals, rig.state.open]).toEqual([[], null]);
  return rig.rest(0).rest(0, FINE);
};

/** Into a light jug for the green half 50 g are poured when somebody presses the scale's own tare key. */
const tared = (): Rig => joined().rest(60).run(1).rest(110).jump(0).run(4);

describe('patterns', () => {
  it('are asked for before joining, one mould after the other, by touch or pedal alike', () => {
    const rig = readyToJoin(plan(null)).run(2);
    expect(rig.seen).toMatchObject({ phase: 'patterns', portion: { at: 'name', job: { name: '26-1/1 Log' } }, joining: { ready: false } });
    rig.press('go-on').press('go-on').run(1);
    expect(rig.seen.cards[rig.seen.selected]?.code).toBe('in-the-pot-swirl');
    rig.press('go-on').press('go-on').press('go-on', true).run(1);
    expect(rig.seen.cards.map(({ code }) => code)).toEqual(['hanger-swirl', 'layers', 'other-pattern', 'more-patterns']);
    rig.press('go-on').press('go-on', true).run(1);
    expect(rig.state.pour.patterns).toEqual({ 1: 'hanger-swirl' });
    expect(rig.seen.phase).toBe('joining');
  });
});

describe('parts and moulds at the bench', () => {
  it('lead from a part by its jug’s gain to its additive, weighed for what is in it', () => {
    const rig = joined();
    expect(at(rig)).toEqual(['set-down', 'part:green']);
    rig.rest(200).run(1);
    expect(at(rig)).toEqual(['stands', 'part:green']);
    expect(rig.seen).toMatchObject({ target: 210_000, left: 210_000, total: 0 });
    rig.rest(300);
    expect(rig.seen).toMatchObject({ portion: { at: 'offer', mass: 100_000 }, left: 110_000, goOn: { code: 'take-pour', hold: true } });
    rig.rest(368);
    rig.press('go-on').run(1);
    expect(rig.state.pour.parts).toEqual([]);
    takeIt(rig);
    expect(rig.state.pour.parts).toMatchObject([{ id: 'green', mass: 168_000, byHand: false }]);
    expect(rig.seen).toMatchObject({ line: 'green', target: 3_200 });
  });

  it('fill a mould by turns without a word between, against its own empty mass however often it comes back', () => {
    const rig = parted();
    expect(at(rig)).toEqual(['set-down', 'mould:1']);
    rig.rest(350).run(1).rest(400).rest(440).rest(520).rest(0);
    expect(at(rig)).toEqual(['off', 'mould:1']);
    expect(rig.state.pour.pours).toEqual([]);
    rig.rest(550);
    expect(rig.seen.portion).toMatchObject({ at: 'offer', mass: 200_000, job: { from: ['pot'] } });
    takeIt(rig);
    expect(rig.state.pour.pours).toMatchObject([{ mould: 1, from: ['pot'], mass: 200_000, by: 'gain' }]);
    // The full mould still stands there: nothing is counted from it.
    expect(at(rig)).toEqual(['clear', 'mould:2']);
    takeIt(setDown(rig, 180).rest(380));
    expect(rig.state.pour.pours.at(-1)).toMatchObject({ mould: 2, from: ['pot', 'part:green'], mass: 200_000 });
    expect(at(rig)).toEqual(['clear', 'left:pot']);
    takeIt(rig.rest(0).rest(508));
    takeIt(rig.rest(0).rest(214));
    expect(rig.state.pour.left).toMatchObject([
      { of: 'pot', mass: 8_000 },
      { of: 'part:green', mass: 14_000 },
    ]);
    expect(rig.rest(0).seen.portion).toEqual({ at: 'done', mass: null });
    expect(compositionOf(rig.state, 2)?.shares).toBe('known');
    expect(rig.refusals).toEqual([]);
  });

  it('count nothing past the scale’s own tare key: the jug is lifted and the scale zeroed, or a person holds to it that it was', () => {
    const rig = tared();
    expect(at(rig)).toEqual(['clear', 'part:green']);
    // Poured on, it stands there with 170 g and reads 120.
    rig.rest(120).run(1).press('go-on', true).run(1);
    expect(at(rig)).toEqual(['clear', 'part:green']);
    expect(rig.state.pour.parts).toEqual([]);
    rig.rest(-110).jump(0).run(5).rest(230).run(1);
    expect(rig.seen.portion).toMatchObject({ at: 'offer', mass: 170_000 });
    const held = tared();
    expect(held.seen.goOn).toEqual({ code: 'scale-zeroed', hold: true });
    held.press('go-on', true).run(1).rest(110);
    expect(held.seen.portion).toMatchObject({ at: 'offer', mass: 50_000 });
  });

  it('keep a mould’s empty mass through a restart; what the scale forgot is set down again', () => {
    const rig = parted().rest(350).run(1).rest(450);
    rig.restart().take('resume-as-recorded').run(2);
    expect(at(rig)).toEqual(['clear', 'mould:1']);
    rig.rest(0).rest(550);
    expect(rig.seen.portion).toMatchObject({ at: 'offer', mass: 200_000 });
    rig.step({ kind: 'disarm', why: 'reconnect', instrument: MAIN });
    rig.run(2);
    expect(at(rig)[0]).toBe('clear');
  });

  it('pour what is too heavy by what its jug loses, as often as it takes, and weigh another when a person says so', () => {
    const rig = parted();
    rig.step({ kind: 'job', job: 'mould:1', by: 'loss', from: ['pot'] });
    // The pot is what stands on the scale, not the mould.
    expect(at(rig.rest(0))).toEqual(['set-pot', 'mould:1']);
    expect(rig.seen.say).toMatchObject({ code: 'set-down', params: { vessel: VESSELS['pot']?.name } });
    rig.rest(700).run(1);
    expect(at(rig)).toEqual(['stands', 'mould:1']);
    takeIt(rig.rest(600));
    takeIt(rig.rest(540));
    expect(rig.state.pour.pours).toMatchObject([
      { mould: 1, mass: 100_000, by: 'loss' },
      { mould: 1, mass: 60_000, by: 'loss' },
    ]);
    rig.rest(580);
    expect(rig.seen).toMatchObject({ portion: { at: 'more' }, goOn: { code: 'count-from-here' } });
    rig.step({ kind: 'job', job: 'mould:2', by: 'gain', from: ['part:green'] });
    takeIt(setDown(rig, 180).rest(260));
    expect(rig.state.pour.pours.at(-1)).toMatchObject({ mould: 2, from: ['part:green'], mass: 80_000 });
  });

  it('take no mould that stands there still for the jug that is to be weighed by its loss', () => {
    const rig = parted();
    takeIt(setDown(rig, 350).rest(450));
    rig.step({ kind: 'job', job: 'mould:2', by: 'loss', from: ['part:green'] });
    expect(at(rig.run(1))).toEqual(['clear', 'mould:2']);
    // Green's jug weighs 200 g and has 214 g in it, the pot of 500 g some 100 g: each may stand there from before.
    expect(at(rig.rest(0))).toEqual(['set-jug', 'mould:2']);
    rig.rest(414).run(1);
    expect(at(rig)).toEqual(['stands', 'mould:2']);
    rig.step({ kind: 'job', job: 'mould:2', by: 'loss', from: ['part:green'] });
    expect(at(rig.run(1))).toEqual(['stands', 'mould:2']);
    rig.step({ kind: 'job', job: 'mould:2', by: 'loss', from: ['pot'] });
    expect(at(rig.run(1))).toEqual(['clear', 'mould:2']);
    expect(rig.refusals).toEqual([]);
  });

  it('take nothing from a scale that is not heard, from a stranger on the pan, or without a hold', () => {
    const rig = parted().rest(350).run(1).rest(450);
    rig.press('go-on').run(1);
    rig.pan(MAIN).speaking = false;
    rig.run(5);
    expect(at(rig)).toEqual(['no-scale', 'mould:1']);
    rig.press('go-on', true);
    rig.pan(MAIN).speaking = true;
    rig.run(2).rest(0).rest(4_000);
    expect(at(rig)).toEqual(['strange', 'mould:1']);
    rig.press('go-on', true).rest(0).rest(300);
    expect(rig.seen).toMatchObject({ portion: { at: 'strange' }, goOn: { code: 'count-from-here', hold: true } });
    expect(rig.state.pour.pours).toEqual([]);
    rig.run(1).press('go-on', true).run(1).rest(400);
    expect(rig.seen.portion).toMatchObject({ at: 'offer', mass: 100_000 });
  });
});

const from = (rig: Rig) => [rig.seen.portion?.at, rig.seen.portion?.job?.from[0]];
const last = (rig: Rig) => rig.state.pour.pours.at(-1);

/** Green and white, each in a jug of 200 g: 172 g in green with its colour, 180 g in white. */
const jugs = (): Rig => {
  const two = { ...plan(), parts: [{ id: 'green', name: 'Green', ppm: 400_000 }, { id: 'white', name: 'White', ppm: 400_000 }] }; // prettier-ignore
  const rig = joinedAs(two, 'medium');
  takeIt(setDown(rig, 200).rest(368));
  rig.rest(100, FINE).pour(104, 6, FINE).run(6).rest(0, FINE);
  takeIt(setDown(rig, 200).rest(380));
  expect([rig.refusals, rig.state.open]).toEqual([[], null]);
  rig.rest(0).step({ kind: 'job', job: 'mould:2', by: 'loss', from: ['part:green'] });
  return rig;
};

describe('two jugs by turns, each by its loss', () => {
  it('are told apart by what each last stood at, without a word', () => {
    const rig = jugs();
    expect(from(rig.rest(372).run(1))).toEqual(['stands', 'part:green']);
    takeIt(rig.rest(0).rest(330));
    expect(last(rig)).toMatchObject({ mould: 2, from: ['part:green'], mass: 42_000, by: 'loss' });
    // White has stood nowhere since it was filled: what it weighs is in the record.
    expect(from(rig.rest(0).rest(380))).toEqual(['stands', 'part:white']);
    takeIt(rig.rest(0).rest(350));
    expect(last(rig)).toMatchObject({ from: ['part:white'], mass: 30_000 });
    // White would be a little lighter; green is as it was, which white may be too: that is asked below.
    takeIt(rig.rest(0).rest(320));
    expect(last(rig)).toMatchObject({ from: ['part:white'], mass: 30_000 });
    expect(from(rig.rest(0).rest(330))).toEqual(['stands', 'part:green']);
    takeIt(rig.rest(0).rest(290));
    expect(last(rig)).toMatchObject({ from: ['part:green'], mass: 40_000 });
    // The pot is another kind of vessel: nothing of green can be so heavy.
    expect(from(rig.rest(0).rest(572))).toEqual(['stands', 'pot']);
    expect(rig.refusals).toEqual([]);
  });

  it('a person is asked where it may be either, and where both are the same', () => {
    const rig = jugs();
    takeIt(rig.rest(372).run(1).rest(0).rest(340));
    expect(from(rig.rest(0).rest(380))).toEqual(['stands', 'part:white']);
    // Poured to what green last stood at.
    expect(from(rig.rest(0).rest(340))).toEqual(['which', 'part:green']);
    expect(rig.seen.goOn).toMatchObject({ code: 'count-from-here', hold: true });
    rig.press('go-on').run(1);
    expect(from(rig)[0]).toBe('which');
    // It is white: what it lost since it last stood there is not forgotten.
    rig.step({ kind: 'job', job: 'mould:2', by: 'loss', from: ['part:white'] });
    expect(rig.run(1).seen.portion).toMatchObject({ at: 'offer', mass: 40_000, job: { from: ['part:white'] } });
    takeIt(rig);
    expect(last(rig)).toMatchObject({ from: ['part:white'], mass: 40_000 });
    // Both weigh the same now: set back, either may have been taken.
    expect(from(rig.rest(0).rest(340))).toEqual(['which', 'part:green']);
    // Poured from, it is no longer what the other stood at.
    expect(rig.rest(0).rest(325).seen.portion).toMatchObject({ at: 'offer', mass: 15_000, job: { from: ['part:white'] } });
    expect(rig.refusals).toEqual([]);
  });

  it('are looked at anew when the bench was about something else: meanwhile the other may have been set down', () => {
    const rig = jugs();
    rig.rest(372).run(1).rest(0).rest(380).run(1);
    takeIt(rig.rest(0).rest(350));
    expect(from(rig.rest(0).rest(372))).toEqual(['stands', 'part:green']);
    const wrong = (): void => void rig.send({ kind: 'stamp-trace', body: { mark: 'wrong', note: '' } }, 'maker');
    const right = (): void => void rig.send({ kind: 'stamp-trace', body: { mark: 'medium', note: '' } }, 'maker');
    wrong();
    rig.run(1).take('ricing', false).run(1);
    right();
    expect(from(rig.run(1))).toEqual(['stands', 'part:green']);
    wrong();
    rig.rest(0).rest(350).take('ricing', false).run(1);
    right();
    expect(from(rig.run(1))).toEqual(['which', 'part:white']);
    expect(rig.refusals).toEqual([]);
  });

  it('held, it is the other, and counts from there; what weighs like neither is none', () => {
    const rig = jugs();
    takeIt(rig.rest(372).run(1).rest(0).rest(340));
    takeIt(rig.rest(0).rest(380).rest(0).rest(340).run(1));
    expect(from(rig)).toEqual(['stands', 'part:green']);
    expect(rig.state.pour.pours).toHaveLength(1);
    expect(from(rig.rest(0).rest(120))[0]).toBe('strange');
    takeIt(rig.rest(0).rest(310));
    expect(last(rig)).toMatchObject({ from: ['part:green'], mass: 30_000 });
    // Poured from elsewhere, its mass of before says nothing.
    rig.rest(0).step({ kind: 'job', job: 'mould:1', by: 'gain', from: ['part:green'] });
    takeIt(setDown(rig, 150).rest(190));
    rig.rest(0).step({ kind: 'job', job: 'mould:2', by: 'loss', from: ['part:white'] });
    rig.rest(380).run(1).rest(0).rest(310);
    expect(from(rig)[1]).toBe('part:white');
    expect(rig.refusals).toEqual([]);
  });
});

describe('batter that went wrong', () => {
  it('is named by a person, with patterns dropped or trace marked anew before anything is poured', () => {
    const rig = joinedAs(plan(), 'wrong');
    expect(rig.seen).toMatchObject({ phase: 'trouble', goOn: { code: 'next-card' } });
    rig.take('ricing', false).run(1);
    expect(rig.seen.cards.map(({ code, hold }) => [code, hold])).toEqual([
      ['trace-thin', false],
      ['trace-medium', false],
      ['trace-thick', false],
      ['to-plain-pour', true],
    ]);
    rig.take('to-plain-pour').run(1);
    expect(rig.state.pour.patterns).toEqual({ 2: 'plain-pour' });
    expect([rig.seen.phase, rig.refusals]).toEqual(['pouring-moulds', []]);
  });
});
