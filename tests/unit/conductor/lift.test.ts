import { describe, expect, it } from 'vitest';
import { line, MAIN, OLIVE, planOf, Rig, WATER } from './rig';

const accepted = (plan = OLIVE): Rig => {
  const rig = new Rig()
    .start(planOf([plan, WATER]))
    .rest(500)
    .pour(700)
    .run(6);
  expect(rig.kinds()).toContain('weight-accepted');
  return rig;
};

/** A hand on the rim that never holds still. */
const pressOn = (rig: Rig, seconds: number): Rig => {
  let turn = 0;
  return rig.run(seconds, () => void rig.put(740 + 20 * (turn++ % 2)));
};

describe('lifting what was accepted', () => {
  it('concludes it', () => {
    const rig = accepted().rest(0);
    expect(rig.state.question).toBeNull();
    expect(rig.line('olive').contributions.at(-1)).toMatchObject({ provisional: false });
  });

  it('is asked about when something pressed on it for long, although it came down through its own weight', () => {
    const rig = pressOn(accepted(), 1.5).rest(0);
    expect(rig.state.question).toMatchObject({ why: 'shifted-up' });
  });

  it('is asked about when it had stood at another weight, too short to settle, before the hand took hold', () => {
    const rig = pressOn(accepted().rest(690, MAIN, 1.4), 0.3).rest(0);
    expect(rig.state.question).toMatchObject({ why: 'shifted-down' });
  });

  it('is not asked about for the moment in which a hand takes hold', () => {
    const rig = pressOn(accepted(), 0.4).rest(0);
    expect(rig.state.question).toBeNull();
  });

  it('is not asked about for a press that had gone before', () => {
    const rig = pressOn(accepted(), 1.5).rest(700).rest(0);
    expect(rig.state.question).toBeNull();
  });

  it('is asked about when the pan at rest is lighter than empty, however much: what lifts it lifted the weight as well', () => {
    for (const pan of [-1.3, -18, -60]) {
      expect(accepted().rest(pan, MAIN, 5).state.question, `${pan} g`).toMatchObject({ why: 'changed-on-pan' });
    }
  });

  it('is asked about when the reading stands on its way down: what lay or leaned beside it left the pan before that came to rest', () => {
    expect(accepted().rest(0).state.question).toBeNull();
    expect(accepted().rest(14, MAIN, 1.2).rest(0).state.question).toMatchObject({ why: 'changed-on-pan', now: 714_000 });
  });

  it('is not asked about what comes onto the pan, and goes, once that has been empty', () => {
    expect(accepted().rest(0, MAIN, 0.9).rest(14, MAIN, 1.2).rest(0).state.question).toBeNull();
  });

  it('is asked about when the pan at rest carries more than the tolerance can bear', () => {
    const narrow = line('olive', { class: 'liquid-oil', target: 200, tolerance: 0.2, vessel: 'pot' });
    expect(accepted(narrow).rest(0.2, MAIN, 5).state.question).toMatchObject({ why: 'changed-on-pan' });
    expect(accepted(narrow).rest(0.1, MAIN, 5).state.question).toBeNull();
    expect(accepted().rest(0.8, MAIN, 5).state.question).toBeNull();
    expect(accepted().rest(1.3, MAIN, 5).state.question).toMatchObject({ why: 'changed-on-pan' });
  });
});
