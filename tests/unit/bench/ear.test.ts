import { describe, expect, it } from 'vitest';
import type { BenchCue } from '#lib/bench/cue';
import { toneOf } from '#lib/bench/tone';
import { IDLE_CUE } from '#lib/bench/conductor/blank';
import { mg } from '#lib/units/mass';
import { byEar, createEar } from '#tests/benchmark/calibration/ear';

const pouring = (left: number): BenchCue => ({
  ...IDLE_CUE,
  phase: 'pouring',
  target: mg(100_000),
  tolerance: mg(1_000),
  left: mg(left),
  overshoot: mg(0),
});

describe('the ear of a simulated hand', () => {
  it('has the tone a delay later than it sounded', () => {
    const ear = createEar(300);
    const heard = Array.from({ length: 100 }, (_, n) => ear(10 * n, pouring(n < 50 ? 30_000 : 10_000)));
    const [far, near] = [toneOf(pouring(30_000)), toneOf(pouring(10_000))];
    expect(far).not.toEqual(near);
    expect(heard.findIndex((tone) => JSON.stringify(tone) === JSON.stringify(near))).toBe(80);
    expect(heard.slice(0, 80)).toEqual(Array.from({ length: 80 }, () => far));
  });

  it('thins the flow as the tone closes, down to its share and never to more than the eye would pour', () => {
    const flows = [100_000, 30_000, 10_000, 500].map((left) => byEar(toneOf(pouring(left)), 8, 10, 0.1));
    expect(flows).toEqual([8, expect.closeTo(7.5, 6), expect.closeTo(2.5, 6), 1]);
    expect(byEar(toneOf(pouring(500)), 0.3, 10, 0.1)).toBe(0.3);
  });

  it('pours on as the eye would where the tone is not heeded, but not into a silence', () => {
    expect(byEar(toneOf(pouring(500)), 8, 10, 1)).toBe(8);
    expect(byEar(toneOf({ ...pouring(500), holdSound: true }), 8, 10, 1)).toBe(0);
  });
});
