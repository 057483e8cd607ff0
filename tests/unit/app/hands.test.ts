import { describe, expect, it } from 'vitest';
import { createGuard, SWALLOW_MS } from '../../../app/_live/guard';
import { CONFIRM_FROM_MS, CONFIRM_UNTIL_MS, createHold, HOLD_MS, LET_GO_MS } from '../../../app/_live/hold';
import type { HoldPhase } from '../../../app/_live/hold';
import { benchKey, createPedal } from '../../../app/_live/keys';
import { time } from './time';

const POINT = { id: 1, x: 40, y: 40 };

const holding = () => {
  const clock = time();
  const guard = createGuard(clock.now);
  const done: string[] = [];
  const phases: HoldPhase[] = [];
  const hold = createHold({ guard, now: clock.now, after: clock.after, onPhase: (phase) => phases.push(phase) });
  hold.means({ onHeld: () => done.push('held'), onTap: () => done.push('tap') });
  return { ...clock, guard, hold, done, phases };
};

describe('a hold', () => {
  it('counts when pressed alone, kept still for two seconds and let go', () => {
    const { hold, pass, done, phases } = holding();
    hold.press(POINT, true);
    pass(HOLD_MS);
    expect(phases).toEqual(['holding', 'full']);
    expect(done).toEqual([]);
    hold.release(1);
    expect(done).toEqual(['held']);
    expect(phases.at(-1)).toBe('rest');
  });

  it('is a tap when let go early', () => {
    const { hold, pass, done } = holding();
    hold.press(POINT, true);
    pass(HOLD_MS - 1);
    hold.release(1);
    expect(done).toEqual(['tap']);
  });

  it('never counts for what lies on the glass and does not let go: a drop of water, a sleeve', () => {
    const { hold, pass, done, phases } = holding();
    hold.press(POINT, true);
    pass(HOLD_MS + LET_GO_MS);
    expect(phases.at(-1)).toBe('rest');
    hold.release(1);
    expect(done).toEqual([]);
  });

  it('is off when a second finger or drop touches, wherever', () => {
    const { hold, pass, done } = holding();
    hold.press(POINT, true);
    pass(500);
    hold.cancel();
    pass(HOLD_MS);
    hold.release(1);
    hold.press({ ...POINT, id: 2 }, false);
    pass(HOLD_MS);
    hold.release(2);
    expect(done).toEqual([]);
  });

  it.each([
    ['slides within the target', { id: 1, x: 60, y: 40 }, true],
    ['leaves the target', { id: 1, x: 41, y: 40 }, false],
  ])('is off when the finger %s', (_what, point, inside) => {
    const { hold, pass, done } = holding();
    hold.press(POINT, true);
    hold.move(point, inside);
    pass(HOLD_MS);
    hold.release(1);
    expect(done).toEqual([]);
  });

  it('allows a tremble', () => {
    const { hold, pass, done } = holding();
    hold.press(POINT, true);
    hold.move({ id: 1, x: 44, y: 37 }, true);
    pass(HOLD_MS);
    hold.release(1);
    expect(done).toEqual(['held']);
  });

  it('counts from a key once, however often the key repeats', () => {
    const { hold, pass, done } = holding();
    hold.keyDown(false);
    for (let repeat = 0; repeat < 40; repeat += 1) {
      pass(60);
      hold.keyDown(true);
    }
    hold.keyUp();
    expect(done).toEqual(['held']);
  });

  it('is two activations of a screen reader, two to ten seconds apart', () => {
    const { hold, pass, done, phases } = holding();
    hold.activate();
    hold.activate();
    expect(done).toEqual([]);
    pass(CONFIRM_FROM_MS);
    expect(phases.at(-1)).toBe('confirm');
    hold.activate();
    expect(done).toEqual(['held']);
    hold.activate();
    pass(CONFIRM_UNTIL_MS);
    hold.activate();
    expect(done).toEqual(['held']);
  });
});

describe('A11: a finger on its way when the screen changes', () => {
  it('is swallowed for 600 ms', () => {
    const { guard, hold, pass, done } = holding();
    guard.quiet();
    hold.press(POINT, true);
    hold.release(1);
    pass(SWALLOW_MS - 1);
    hold.press(POINT, true);
    hold.release(1);
    expect(done).toEqual([]);
    pass(1);
    hold.press(POINT, true);
    hold.release(1);
    expect(done).toEqual(['tap']);
  });

  it('is void when the change came while it was down', () => {
    const { guard, hold, pass, done } = holding();
    hold.press(POINT, true);
    guard.quiet();
    pass(HOLD_MS + 100);
    hold.release(1);
    expect(done).toEqual([]);
  });
});

const pedalling = () => {
  const clock = time();
  const guard = createGuard(clock.now);
  const done: [string, boolean][] = [];
  const pedal = createPedal({
    guard,
    now: clock.now,
    after: clock.after,
    onPhase: () => {},
    onPress: (key, hold) => done.push([key, hold]),
  });
  return { ...clock, guard, pedal, done };
};

describe('keyboard and pedal', () => {
  it('knows the keys of keyboards, presenters and pedals', () => {
    expect(['Enter', ' ', 'PageDown', 'ArrowRight'].map(benchKey)).toEqual(['go-on', 'go-on', 'go-on', 'go-on']);
    expect(['Backspace', 'PageUp'].map(benchKey)).toEqual(['back', 'back']);
    expect(['Escape', 's'].map(benchKey)).toEqual(['silence', 'silence']);
    expect(benchKey('q')).toBeNull();
  });

  it('tells a press from a hold, and ignores repeats', () => {
    const { pedal, pass, done } = pedalling();
    pedal.down('go-on', false);
    pass(80);
    pedal.up('go-on');
    pedal.down('go-on', false);
    for (let repeat = 0; repeat < 50; repeat += 1) {
      pass(50);
      pedal.down('go-on', true);
    }
    pedal.up('go-on');
    expect(done).toEqual([
      ['go-on', false],
      ['go-on', true],
    ]);
  });

  it('takes a key that stays down for nothing', () => {
    const { pedal, pass, done } = pedalling();
    pedal.down('go-on', false);
    pass(60_000);
    pedal.up('go-on');
    expect(done).toEqual([]);
  });

  it('silences at once, even within the quiet', () => {
    const { guard, pedal, done } = pedalling();
    guard.quiet();
    pedal.down('silence', false);
    pedal.down('go-on', false);
    pedal.up('go-on');
    expect(done).toEqual([['silence', false]]);
  });

  it('takes two keys at once for neither', () => {
    const { pedal, pass, done } = pedalling();
    pedal.down('go-on', false);
    pedal.down('back', false);
    pass(100);
    pedal.up('go-on');
    pedal.up('back');
    expect(done).toEqual([]);
  });
});
