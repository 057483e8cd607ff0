import { describe, expect, it } from 'vitest';
import { practicePours } from '#tests/benchmark/calibration/cue/practice';
import { runHands } from '#tests/benchmark/calibration/cue/run';

/** A small run of `npm run calibration:cue`. Busy machines take their time: the limit is for what never ends. */
const LONG = 300_000;
const mean = (all: readonly number[]): number => all.reduce((sum, one) => sum + one, 0) / all.length;

describe('the stop cue on hands drawn by the test', () => {
  it('ends pours at most half as far off as people do by the figure, after five pours', { timeout: LONG }, () => {
    // People differ fourfold: the mean of eight of them may lie anywhere between a quarter and a half.
    const people = Array.from({ length: 16 }, (_, n) => runHands(300 + n, 5, 3));
    expect(people.every(({ cue, guess }) => Number.isFinite(cue) && Number.isFinite(guess))).toBe(true);
    expect(mean(people.map(({ cue }) => cue)) / mean(people.map(({ guess }) => guess))).toBeLessThanOrEqual(0.5);
    // Some of them pour unlike the fixed lag, and the bench has noticed.
    expect(people.filter(({ learnt }) => learnt.lag !== 0).length).toBeGreaterThan(1);
    expect(people.every(({ learnt }) => learnt.seen >= 3)).toBe(true);
  });

  it('does the same for an unpractised pourer of the practice bench', { timeout: LONG }, () => {
    const { cued, uncued } = practicePours(3, 5, 8);
    expect(cued / uncued).toBeLessThanOrEqual(0.5);
  });
});
