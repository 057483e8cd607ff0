import { describe, expect, it } from 'vitest';
import { follow, startTrack } from '#lib/measure/readings/settle';
import { stepIn, SUDDEN, type Step } from '#lib/measure/readings/step';
import { massReading } from '#tests/support/mass-reading';

const DIVISION = 500;

/** Steps of 3 g and more in what a scale shows every `period` ms of `truth`, mg by ms, while its display is renewed every `held` ms. */
const stepsOf = (truth: (at: number) => number, period: number, held: number): readonly Step[] => {
  let track = startTrack(DIVISION);
  const steps: Step[] = [];
  for (let seq = 1; seq * period < 12_000; seq += 1) {
    const at = seq * period;
    const shown = Math.round(truth(Math.floor(at / held) * held) / DIVISION) * DIVISION;
    track = follow(track, massReading(DIVISION, seq, at, shown));
    const step = stepIn(track, 3_000, 0);
    if (step !== null && step.held >= SUDDEN) steps.push(step);
  }
  return steps;
};

/** A stream of so many mg per ms, beginning after two seconds. */
const stream = (flow: number) => (at: number) => flow * Math.max(0, at - 2_000);

describe('a step in a stream', () => {
  it('is none where a display goes in stairs: few frames say little of how fast it flows', () => {
    const found: string[] = [];
    for (const flow of [20, 35, 50, 75])
      for (const period of [71, 80, 94, 110])
        for (const held of [100, 150, 180, 240])
          for (const step of stepsOf(stream(flow), period, held))
            found.push(`${flow} ${period} ${held}: ${Math.round(step.size)} at ${step.at}`);
    expect(found).toEqual([]);
  });

  it.each([12, 30])('of something laid into a stream of %i g/s is seen, as large as it is', (flow) => {
    const laid = (at: number): number => stream(flow)(at) + (at > 6_000 ? 40_000 : 0);
    const sizes = stepsOf(laid, 90, 10).map(({ size }) => size);
    expect(Math.max(...sizes)).toBeGreaterThan(30_000);
    expect(Math.max(...sizes)).toBeLessThan(50_000);
  });
});
