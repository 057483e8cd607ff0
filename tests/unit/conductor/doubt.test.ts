import { describe, expect, it } from 'vitest';
import { FINE, line, OLIVE, planOf, Rig, SHEA, WATER, MAIN } from './rig';

const atReady = (): Rig => new Rig().start(planOf([OLIVE, SHEA, WATER])).rest(500);

/** Lifted in the middle of its pour. */
const away = (): Rig => atReady().pour(600, 3).run(3).rest(0);

/** The line ends within tolerance, and nothing was taken. */
const asks = (rig: Rig, doubt: string): void => {
  rig.run(6);
  expect(rig.seen.phase).toBe('ask');
  expect(rig.seen.doubts).toContain(doubt);
  expect(rig.kinds()).not.toContain('weight-accepted');
};

/** A small spoon was laid into its stream, and its weight, within tolerance, is asked about. */
const spooned = (): Rig => atReady().pour(560, 3).pour(569, 0.2).pour(698.3, 6.5).run(3);

/** Right on the target, on a scale that never quite stands still. */
const unsteady = (tolerance: number): Rig => {
  const oil = line('olive', { class: 'liquid-oil', target: 200, tolerance, vessel: 'pot' });
  const rig = new Rig()
    .start(planOf([oil, WATER]))
    .rest(500)
    .pour(700);
  let turn = 0;
  return rig.run(20, () => void rig.put(700 + 0.3 * (turn++ % 2 === 0 ? 1 : -1)));
};

/** The scent is weighed on the other scale, and the pot is set for the next line. */
const afterScent = (): Rig => {
  const scent = line('scent', { class: 'fragrance', target: 20, tolerance: 0.2, vessel: 'cup', more: { scale: 'fine' } });
  const rig = new Rig()
    .start(planOf([scent, OLIVE, WATER]))
    .rest(100, FINE)
    .pour(120, 6, FINE)
    .run(6)
    .rest(500);
  expect(rig.state.pans[MAIN]).toMatchObject({ line: 'olive', zero: 500_000 });
  return rig;
};

/** The scent is crossed out, something happens meanwhile, and it is taken again. */
const againScent = (rig: Rig, meanwhile: () => void): void => {
  const entry = rig.line('scent').contributions[0]?.entry;
  rig.send({ kind: 'strike', body: { entry: entry as never, reason: 'undone', note: '', held: true } }, 'maker');
  meanwhile();
  rig.press('go-on').run(9);
  expect(rig.line('scent').status).toBe('closed');
};

describe('doubt', () => {
  it('a spoon laid into the pot is a step, no pour', () => {
    asks(atReady().pour(660).run(3).rest(685, MAIN, 3).pour(700, 3), 'step-up');
  });

  it('a hand that leans for a moment and goes leaves no doubt: the step was taken back', () => {
    const rig = atReady().pour(660).run(3).rest(690, MAIN, 1).rest(660, MAIN, 3).pour(700, 4).run(6);
    expect(rig.kinds()).toContain('weight-accepted');
  });

  it('a hand that leans until the weight has settled is asked about when it goes: a settled weight fell', () => {
    asks(atReady().pour(660).run(3).rest(690, MAIN, 2.5).rest(660, MAIN, 3).pour(700, 4), 'fell');
  });

  it('a settled weight that falls is asked about', () => {
    const rig = atReady().pour(690).run(3).pour(680, 4).run(2).pour(700, 4);
    asks(rig, 'fell');
  });

  it('a reading that sinks in the middle of a stream, before anything has settled', () => {
    asks(atReady().pour(640, 3).pour(630, 0.8).pour(700, 4), 'fell');
    expect(atReady().pour(640, 3).pour(700, 4).run(6).kinds()).toContain('weight-accepted');
  });

  it('a cable that takes some of the weight in the middle of a stream: it thins for less than any pause and goes on as it was', () => {
    asks(atReady().pour(650, 3).pour(652, 0.4).pour(700, 1), 'step-down');
  });

  it('a cable that takes as much as the stream had begun with: its beginning does not take that back', () => {
    const rig = atReady().pour(600, 2);
    const { pour } = rig.memory;
    if (pour === null) throw new Error('no pour');
    const begun = { at: rig.now - 2_000, size: 15_000, held: 0.9, laid: false, fell: false };
    rig.memory = { ...rig.memory, pour: { ...pour, steps: [begun] } };
    asks(rig.pour(650, 1).pour(652, 0.4).pour(700, 1), 'step-down');
  });

  it('a spoon laid in while it flows: more comes at once than before and after it', () => {
    asks(atReady().pour(560, 3).pour(584, 0.2).pour(700, 5.8), 'step-up');
  });

  it('a spoon laid in just before a stream begins: that nothing flowed between them took nothing out again', () => {
    asks(atReady().pour(515, 0.1).run(0.6).pour(700, 9), 'step-up');
  });

  it('what was asked about is asked about still, however the stream surges when it is taken up again', () => {
    const rig = spooned();
    expect(rig.seen).toMatchObject({ phase: 'ask', doubts: ['step-up'] });
    const { pour } = rig.memory;
    if (pour === null) throw new Error('no pour');
    const surge = { at: rig.now, size: 3_000, apart: 3_000, plain: 0, fell: false };
    rig.memory = { ...rig.memory, pour: { ...pour, bulges: [...pour.bulges, surge] } };
    asks(rig.pour(699.5, 1), 'step-up');
  });

  it('a stream that starts, stops and starts again is no step', () => {
    const rig = atReady().pour(600, 3).run(3).pour(695, 3).run(3).pour(700, 2).run(6);
    expect(rig.kinds()).toContain('weight-accepted');
  });

  it("the scale's own tare key as a fast pour begins: the reading fell below its zero though nothing was lifted", () => {
    asks(atReady().jump(200).pour(700, 0.6), 'fell');
  });

  it("the scale's own tare key as a pour begins, and what is poured weighs as much as the vessel: no lift shows so little, and not nothing", () => {
    const double = line('olive', { class: 'liquid-oil', target: 500, tolerance: 5, vessel: 'pot' });
    const ready = (): Rig => new Rig().start(planOf([double, SHEA, WATER])).rest(500);
    asks(ready().jump(40).pour(500, 3).run(4).pour(1000, 4), 'return-unlike');
    expect(ready().rest(0).rest(500).pour(1000, 4).run(6).line('olive').contributions[0]).toMatchObject({ how: 'by-itself' });
  });

  it("the scale's own tare key in the middle of a pour, poured on", () => {
    asks(atReady().pour(600, 3).run(3).jump(300).pour(700, 0.6), 'fell');
  });

  it("the scale's own tare key while more than the vessel's own weight falls between two frames: the reading never went down", () => {
    const fast = line('olive', { class: 'liquid-oil', target: 2000, tolerance: 30, vessel: 'cup' });
    const ready = (): Rig => new Rig().start(planOf([fast, SHEA, WATER])).rest(100);
    asks(ready().jump(150).pour(2100, 1), 'outran');
    expect(ready().pour(2100, 4).run(6).line('olive').contributions[0]).toMatchObject({ how: 'by-itself', net: 2_000_000 });
  });

  it('another vessel in the place of one that was lifted, poured into until it weighs the same before it ever rested', () => {
    asks(away().put(560).run(0.3).pour(600, 7).run(4).pour(700, 3), 'return-unlike');
    expect(away().rest(600).pour(700, 4).run(6).line('olive').contributions[0]).toMatchObject({ how: 'by-itself' });
  });

  it('a pot held up a little and let down again where it was leaves no doubt', () => {
    const rig = atReady().pour(600, 3).run(3).rest(450, MAIN, 0.4).rest(600, MAIN, 3).pour(700, 3).run(6);
    expect(rig.kinds()).toContain('weight-accepted');
  });

  it('a vessel put in the place of one that was set, while an earlier line is open again on the other scale', () => {
    const rig = afterScent();
    againScent(rig, () => rig.rest(0).rest(200).pour(700, 3).run(3));
    expect(rig.seen).toMatchObject({ phase: 'ask', line: 'olive', doubts: ['return-unlike'] });
    expect(rig.line('olive').contributions).toHaveLength(0);
  });

  it('what was asked about is asked about still when an earlier line was open again meanwhile', () => {
    const rig = afterScent().jump(200).pour(700, 0.6).run(4);
    expect(rig.seen).toMatchObject({ phase: 'ask', line: 'olive' });
    againScent(rig, () => rig.run(4));
    expect(rig.seen).toMatchObject({ phase: 'ask', line: 'olive' });
    expect(rig.line('olive').contributions).toHaveLength(0);
  });

  it('a person clears a doubt with "go on"', () => {
    const rig = atReady().pour(660).run(3).rest(685, MAIN, 3).pour(700, 3).run(4).press('go-on');
    expect(rig.line('olive').contributions.at(-1)).toMatchObject({ how: 'go-on', net: 200_000 });
  });

  it('A3: frames that fail to come in the middle of a pour make it doubtful, and what drains after them settles nothing', () => {
    const rig = atReady().pour(660, 4);
    rig.pan(MAIN).speaking = false;
    rig.pour(700, 1.5);
    expect(rig.seen).toMatchObject({ block: 'late', holdSound: true, poured: null });
    rig.pan(MAIN).speaking = true;
    rig.pan(MAIN).filtered = 700_000;
    // Twenty frames at once say nothing about standing still.
    for (let frame = 0; frame < 20; frame += 1) rig.frame(MAIN);
    expect(rig.seen.phase).not.toBe('ask');
    expect(rig.memory.scales[MAIN]?.track.stable).toBe(false);
    asks(rig, 'gap');
  });

  it('A3: a burst without a gap restarts the dwell', () => {
    const rig = atReady().pour(700).run(1);
    expect(rig.seen.phase).not.toBe('offer');
    for (let frame = 0; frame < 30; frame += 1) rig.frame(MAIN);
    rig.run(0.5);
    expect(rig.memory.scales[MAIN]?.track.stable).toBe(false);
  });

  it('late frames cancel the moment before acceptance, and silence that is not late yet accepts nothing', () => {
    const rig = atReady().pour(700).run(2.7);
    expect(rig.seen.phase).toBe('offer');
    rig.pan(MAIN).speaking = false;
    // The moment would have ended in here, 0.4 s after the newest frame.
    rig.run(0.4);
    expect(rig.seen).toMatchObject({ phase: 'offer', acceptsIn: { left: 0 } });
    expect(rig.kinds()).not.toContain('weight-accepted');
    rig.run(1.6);
    expect(rig.seen.block).toBe('late');
    expect(rig.kinds()).not.toContain('weight-accepted');
  });

  it('a scale known to drift is trusted for a while only', () => {
    const rig = new Rig().start(planOf([OLIVE, WATER]));
    // Two divisions a minute while the pan stands empty.
    const began = rig.now;
    const drifting = (empty: number): void =>
      rig.run(70, () => void rig.put(empty + ((rig.now - began) / 60_000) * 0.2)) as unknown as void;
    drifting(0);
    drifting(0);
    rig.rest(500).pour(690, 20).run(200).pour(700, 5);
    asks(rig, 'drift');
  });

  it('a scale whose settled weight wanders by the whole tolerance is never believed by itself, however long it takes', () => {
    expect(unsteady(2).kinds()).toContain('weight-accepted');
    const narrow = unsteady(0.2);
    expect(narrow.kinds()).not.toContain('weight-accepted');
    expect(narrow.seen.phase).toBe('ask');
  });
});
