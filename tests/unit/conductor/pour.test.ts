import { describe, expect, it } from 'vitest';
import { mg } from '#lib/units/mass';
import { OLIVE, planOf, Rig, SHEA, SODA, WATER, MAIN, line, lineId } from './rig';

/** Pot set down and zeroed for the first line. */
const atReady = (...lines: Parameters<typeof planOf>[0][number][]): Rig => {
  const rig = new Rig().start(planOf(lines.length === 0 ? [OLIVE, SHEA, WATER] : lines));
  return rig.rest(500);
};

describe('an ordinary line', () => {
  it('waits for its vessel, notices it, takes the zero in software and says what to pour', () => {
    const rig = new Rig().start(planOf([OLIVE, WATER]));
    expect(rig.seen).toMatchObject({ phase: 'waiting-vessel', line: 'olive', vessel: 'pot', instrument: MAIN });
    expect(rig.seen.say).toMatchObject({ code: 'next-line', params: { material: 'olive', vessel: 'pot', scale: 'main', lot: 'olive 1' } });
    rig.rest(500);
    expect(rig.seen).toMatchObject({ phase: 'ready', poured: 0, left: 200_000, target: 200_000 });
    expect(rig.state.pans[MAIN]).toMatchObject({ vessel: 'pot', line: 'olive', zero: 500_000 });
  });

  it('is accepted by itself after a visible moment, with one whole reading as evidence', () => {
    const rig = atReady().pour(700).run(2.2);
    expect(rig.seen.phase).toBe('offer');
    expect(rig.seen.acceptsIn).toMatchObject({ of: 1500 });
    expect(rig.kinds()).not.toContain('weight-accepted');
    rig.run(1.8);
    const accepted = rig.entries.find((entry) => entry.kind === 'weight-accepted');
    expect(accepted?.body).toMatchObject({
      line: 'olive',
      how: 'by-itself',
      weighed: { gross: 700_000, zero: 500_000, net: 200_000, text: '700.00', unit: 'g', raw: 'QUJD', instrument: MAIN },
    });
  });

  it('takes no weight twice: the next line of the same vessel opens at once from the gross just accepted', () => {
    const rig = atReady().pour(700).run(6);
    expect(rig.seen).toMatchObject({ phase: 'ready', line: 'shea', poured: 0 });
    expect(rig.seen.say?.code).toBe('same-vessel');
    expect(rig.state.pans[MAIN]).toMatchObject({ vessel: 'pot', line: 'shea', zero: 700_000 });
    expect(rig.kinds().filter((kind) => kind === 'weight-accepted')).toHaveLength(1);
  });

  it('is cancelled by "back", asks then, and comes back only when the weight has moved', () => {
    const rig = atReady().pour(700).run(2.8);
    expect(rig.seen.phase).toBe('offer');
    rig.press('back').run(4);
    expect(rig.seen.phase).toBe('ask');
    expect(rig.kinds()).not.toContain('weight-accepted');
    rig.pour(701, 1).run(2);
    expect(rig.seen.phase).toBe('offer');
  });

  it('says "a little more" and takes a short weight only from a held press', () => {
    const rig = atReady().pour(694).run(3);
    expect(rig.seen).toMatchObject({ phase: 'short', goOn: { code: 'enough', hold: true } });
    expect(rig.seen.say).toMatchObject({ code: 'short' });
    rig.run(4).press('go-on');
    expect(rig.kinds()).not.toContain('weight-accepted');
    rig.press('go-on', true);
    expect(rig.line('olive')).toMatchObject({ outcome: 'short', actual: 194_000 });
  });

  it('is never accepted by itself without a lot; a person may go on', () => {
    const rig = atReady({ ...OLIVE, lot: null }, WATER)
      .pour(700)
      .run(6);
    expect(rig.seen).toMatchObject({ phase: 'ask', doubts: ['no-lot'] });
    rig.press('go-on');
    expect(rig.line('olive').contributions.at(-1)).toMatchObject({ how: 'go-on', net: 200_000 });
  });

  it('accepts nothing without a control lease', () => {
    const rig = atReady().pour(700);
    rig.leased = false;
    rig.run(6);
    expect(rig.seen).toMatchObject({ phase: 'blocked', block: 'no-lease' });
    expect(rig.kinds()).not.toContain('weight-accepted');
    rig.leased = true;
    rig.run(3);
    expect(rig.kinds()).toContain('weight-accepted');
  });

  it('accepts nothing that the instrument itself calls moving', () => {
    const rig = atReady();
    rig.pan(MAIN).motion = 'moving';
    rig.pour(700).run(8);
    expect(rig.kinds()).not.toContain('weight-accepted');
    rig.pan(MAIN).motion = 'stable';
    rig.run(3);
    expect(rig.kinds()).toContain('weight-accepted');
  });

  it('gives lumps more time, because there a step says nothing', () => {
    const rig = atReady(SHEA, WATER);
    for (const grams of [540, 575, 600]) rig.rest(grams, MAIN, 2);
    rig.run(2);
    expect(rig.seen).toMatchObject({ phase: 'offer', acceptsIn: { of: 3000 } });
    expect(rig.seen.say?.code).toBe('only-material');
    expect(rig.run(3).line('shea').contributions.at(-1)).toMatchObject({ how: 'by-itself', net: 100_000 });
  });
});

describe('an over-pour', () => {
  it('is never accepted by itself: carry on and cross out are cards', () => {
    const rig = atReady().pour(705).run(8);
    expect(rig.seen).toMatchObject({ phase: 'over', red: false, left: -5000 });
    expect(rig.seen.cards.map((card) => [card.code, card.hold])).toEqual([
      ['carry-on', false],
      ['cross-out', true],
      ['stop', true],
    ]);
    expect(rig.kinds()).not.toContain('weight-accepted');
    rig.take('carry-on', false).run(0.2);
    expect(rig.line('olive')).toMatchObject({ outcome: 'over', actual: 205_000 });
    expect(rig.seen.line).toBe('shea');
  });

  it('keeps its cards while the reading moves or is late, and none can be taken before it rests', () => {
    const rig = atReady().pour(705).run(8);
    const codes = rig.seen.cards.map(({ code }) => code);
    rig.pour(705.6, 0.3);
    expect(rig.seen).toMatchObject({ phase: 'over', goOn: { code: 'next-card' } });
    expect(rig.seen.cards.map(({ code, enabled }) => [code, enabled])).toEqual(codes.map((code) => [code, false]));
    rig.take('carry-on', true).run(0.1);
    expect(rig.kinds()).not.toContain('weight-accepted');
    rig.run(4);
    expect(rig.seen.cards.map(({ code, enabled }) => [code, enabled])).toEqual(codes.map((code) => [code, true]));
    for (let n = 0; n < 8; n += 1) {
      rig.now += 100;
      rig.tick();
    }
    expect(rig.seen).toMatchObject({ phase: 'over', block: 'late' });
    expect(rig.seen.cards.map(({ code, enabled }) => [code, enabled])).toEqual(codes.map((code) => [code, false]));
    rig.run(3);
    // Back within: nothing is to be answered any more.
    rig.pour(700, 1).run(0.2);
    expect(rig.seen.cards).toEqual([]);
  });

  it('into what is mixed is not said to come back out as it went in', () => {
    const rig = atReady().pour(700).run(6).pour(805).run(6);
    expect(rig.seen).toMatchObject({ phase: 'over', line: 'shea' });
    expect(rig.seen.cards.map(({ code }) => code)).toEqual(['carry-on', 'stop']);
  });

  it('of hydroxide that is lye-heavy is not carried on: it comes out of its cup, or the batch ends, and what was weighed is kept', () => {
    const rig = new Rig().start(planOf([SODA, WATER])).run(0.5);
    rig.press('go-on', true).run(0.2).rest(60).pour(230).run(8);
    expect(rig.seen).toMatchObject({ phase: 'over', line: 'soda' });
    expect(rig.seen.cards.map(({ code, enabled, why }) => [code, enabled, why])).toEqual([
      ['carry-on', false, 'lye-heavy'],
      ['cross-out', true, null],
      ['stop', true, null],
    ]);
    rig.take('carry-on', true).run(0.2);
    expect(rig.kinds()).not.toContain('weight-accepted');
    rig.take('stop', true).run(0.2);
    expect(rig.kinds().slice(-3)).toEqual(['weight-accepted', 'alarm-raised', 'abandoned']);
  });

  it('that leaves the limits is red and wants a hold', () => {
    const rig = atReady().pour(715).run(4);
    expect(rig.seen).toMatchObject({ phase: 'over', red: true });
    rig.take('carry-on', false);
    expect(rig.kinds()).not.toContain('weight-accepted');
    rig.take('carry-on', true);
    expect(rig.line('olive')).toMatchObject({ outcome: 'over', actual: 215_000 });
  });

  it('crossed out keeps both weights for ever and is weighed again from the same zero', () => {
    const rig = atReady().pour(705).run(4);
    rig.take('cross-out').run(0.2);
    expect(rig.line('olive').contributions).toMatchObject([{ net: 205_000, struck: expect.any(String) as string }]);
    expect(rig.state.pans[MAIN]).toMatchObject({ zero: 500_000 });
    rig.pour(700, 2).run(3);
    // What was over once is asked about, not taken.
    expect(rig.seen.phase).toBe('ask');
    rig.press('go-on');
    expect(rig.line('olive')).toMatchObject({ actual: 200_000, outcome: 'within' });
    expect(rig.line('olive').contributions).toHaveLength(2);
  });

  it('scooped out again is asked about', () => {
    const rig = atReady().pour(705).run(3).rest(700.2);
    expect(rig.seen.phase).toBe('ask');
    expect(rig.seen.doubts).toContain('was-over');
    expect(rig.run(5).kinds()).not.toContain('weight-accepted');
  });
});

const gated = (): Rig => new Rig().start(planOf([SODA, WATER]));

describe('hydroxide', () => {
  it('asks for its precautions first, held, before anything is set down', () => {
    const rig = gated();
    expect(rig.seen).toMatchObject({ phase: 'gate', gate: { gate: 'hydroxide' }, goOn: { code: 'confirm-gate', hold: true } });
    rig.press('go-on').run(0.2);
    expect(rig.seen.phase).toBe('gate');
    rig.press('go-on', true).run(0.2);
    expect(rig.seen.phase).toBe('waiting-vessel');
    expect(rig.entries.find((entry) => entry.kind === 'gate-confirmed')?.body).toMatchObject({ gate: 'hydroxide', line: 'soda' });
  });

  it('is never accepted by itself: a held go-on, with the material named', () => {
    const rig = gated().press('go-on', true).rest(60).pour(130).run(20);
    expect(rig.seen).toMatchObject({ phase: 'hold', goOn: { code: 'accept-held', hold: true } });
    expect(rig.seen.say).toMatchObject({ code: 'hold', params: { material: 'soda' } });
    expect(rig.kinds()).not.toContain('weight-accepted');
    rig.press('go-on');
    expect(rig.kinds()).not.toContain('weight-accepted');
  });

  it('a hold takes the card that is highlighted and not the weight; back at the first place it takes the weight', () => {
    const rig = gated().press('go-on', true).rest(60).pour(130).run(6).press('go-on');
    expect(rig.seen).toMatchObject({ phase: 'hold', selected: 0 });
    rig.press('go-on', true);
    expect(rig.kinds()).not.toContain('weight-accepted');
    rig.press('back');
    expect(rig.seen.selected).toBe(-1);
    rig.press('go-on', true);
    expect(rig.line('soda').contributions.at(-1)).toMatchObject({ how: 'held', net: 70_000 });
  });

  it('A11: drops of water on the glass are taps, and no number of taps is a hold', () => {
    const rig = gated().press('go-on', true).rest(60).pour(130).run(6);
    for (let tap = 0; tap < 40; tap += 1) rig.press('go-on').run(0.2);
    expect(rig.kinds()).not.toContain('weight-accepted');
  });

  it('held, it counts as held', () => {
    const rig = gated().press('go-on', true).rest(60).pour(130).run(6).press('go-on', true);
    expect(rig.line('soda').contributions.at(-1)).toMatchObject({ how: 'held', net: 70_000 });
  });

  it('offers to lift and set down again, where an error matters most', () => {
    const rig = gated().press('go-on', true).rest(60).pour(130).run(6);
    expect(rig.seen.cards.map((card) => card.code)).toEqual(['lift-check']);
    rig.take('lift-check', false).rest(0, MAIN, 2).rest(130);
    expect(rig.seen).toMatchObject({ phase: 'hold', doubts: [] });
    rig.take('lift-check', false).rest(0, MAIN, 2).rest(127);
    expect(rig.seen.doubts).toContain('return-unlike');
  });

  it('is kept in part only from a hold: the button brings up its card, and nothing else that a hold could take', () => {
    const rig = gated().press('go-on', true).rest(60).pour(127).run(4);
    expect(rig.seen).toMatchObject({ phase: 'short', goOn: { code: 'enough' } });
    rig.step({ kind: 'ask', ask: 'part-pour' });
    expect(rig.kinds()).not.toContain('weight-accepted');
    expect(rig.seen).toMatchObject({ cards: [{ code: 'part-pour', hold: true }], selected: 0 });
    rig.run(1).press('go-on').run(1).take('part-pour', false);
    expect(rig.kinds()).not.toContain('weight-accepted');
    rig.press('go-on', true);
    expect(rig.line('soda')).toMatchObject({ actual: 67_000, status: 'open', contributions: [{ how: 'held', net: 67_000 }] });
  });

  it('is not kept in part after "back", nor when the weight has moved', () => {
    const rig = gated().press('go-on', true).rest(60).pour(110).run(4);
    rig.step({ kind: 'ask', ask: 'part-pour' });
    rig.run(1).press('back').run(1);
    expect(rig.seen.cards).toEqual([]);
    rig.step({ kind: 'ask', ask: 'part-pour' });
    rig.run(1).pour(120, 3).run(4);
    expect(rig.seen.cards).toEqual([]);
    rig.press('go-on', true);
    expect(rig.kinds()).not.toContain('weight-accepted');
  });

  it('waits for its lot before the gate', () => {
    const rig = new Rig().start(planOf([{ ...SODA, lot: null }, WATER]));
    expect(rig.seen).toMatchObject({ phase: 'choose-lot', block: 'no-lot' });
  });
});

describe('other ways of weighing', () => {
  it('a heavy bottle is weighed by what it loses, on the pan or lifted off it', () => {
    const bottle = line('honey', { class: 'liquid', target: 80, tolerance: 1, vessel: 'jug', more: { mode: 'loss' } });
    const rig = new Rig().start(planOf([bottle, WATER])).rest(1500);
    expect(rig.seen).toMatchObject({ phase: 'ready', left: 80_000 });
    rig.rest(0, MAIN, 3);
    expect(rig.seen).toMatchObject({ phase: 'pouring', poured: null });
    rig.rest(1450);
    expect(rig.seen).toMatchObject({ poured: 50_000, left: 30_000 });
    rig.rest(0, MAIN, 3).rest(1420, MAIN, 5);
    expect(rig.line('honey').contributions.at(-1)).toMatchObject({ net: 80_000, how: 'by-itself' });
  });

  it('a line larger than the scale is kept in parts', () => {
    const rig = new Rig();
    rig.pan(MAIN).capacity = 650_000 as never;
    rig
      .start(planOf([OLIVE, WATER]))
      .rest(500)
      .pour(640)
      .run(3);
    expect(rig.seen).toMatchObject({ block: 'capacity' });
    expect(rig.seen.cards.map((card) => card.code)).toEqual(['part-pour']);
    rig.take('part-pour', false);
    expect(rig.line('olive')).toMatchObject({ actual: 140_000, status: 'open' });
  });

  it('a part is kept on a button of the screen', () => {
    const rig = atReady().pour(600).run(3);
    rig.step({ kind: 'ask', ask: 'part-pour' });
    expect(rig.line('olive')).toMatchObject({ actual: 100_000, status: 'open' });
    rig.pour(700).run(6);
    expect(rig.line('olive')).toMatchObject({ actual: 200_000, outcome: 'within' });
  });

  it('what stayed in a jug is weighed back', () => {
    const rig = new Rig()
      .start(planOf([WATER, OLIVE]))
      .rest(200)
      .pour(350)
      .run(6)
      .rest(0);
    rig.send({ kind: 'move', body: { from: 'jug' as never, to: 'pot' as never, mass: 150_000 as never, residue: null } }, 'maker');
    rig.rest(203);
    rig.step({ kind: 'ask', ask: 'weigh-back' });
    expect(rig.entries.find((entry) => entry.kind === 'weighed-back')?.body).toMatchObject({ line: 'water', weighed: { net: 3000 } });
  });

  it('is typed by hand where the plan says so', () => {
    const rig = new Rig().start(planOf([{ ...OLIVE, mode: 'by-hand' }, WATER]));
    expect(rig.seen).toMatchObject({ phase: 'by-hand', say: { code: 'next-line', params: { scale: '' } } });
  });

  it('typed over, is over by what the record has, with no scale to say so', () => {
    const rig = new Rig().start(planOf([{ ...OLIVE, mode: 'by-hand' }, WATER]));
    const typed = { net: mg(212_300), text: '212.3', unit: 'g' } as const;
    rig.send({ kind: 'type-weight', body: { line: lineId('olive'), typed, readBack: true, part: false, held: false } }, 'maker');
    expect(rig.run(1).seen).toMatchObject({ phase: 'over', line: 'olive', left: -12_300, total: 212_300, poured: null });
  });

  it('is typed by hand where this bench never had its scale: there is nothing to plug in', () => {
    class OneScale extends Rig {
      override view() {
        const all = super.view();
        return { ...all, scales: all.scales.slice(0, 1) };
      }
    }
    const rig = new OneScale().start(planOf([{ ...OLIVE, scale: 'fine' }, WATER]));
    expect(rig.seen).toMatchObject({ line: 'olive', phase: 'by-hand', block: null, say: { params: { scale: '' } } });
  });
});
