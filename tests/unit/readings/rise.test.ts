import { describe, expect, it } from 'vitest';
import { follow, learnRise, startTrack } from '#lib/measure/readings/settle';
import type { Track } from '#lib/measure/readings/settle';
import { massReading } from '#tests/support/mass-reading';

const STEP = 100;
const EVERY = 100;
const UNKNOWN = startTrack(STEP).rise;

const heard = (masses: readonly number[], from: Track = startTrack(STEP), after = EVERY): Track =>
  masses.reduce((track, mass, n) => {
    const last = track.times.at(-1) ?? 0;
    return follow(track, massReading(STEP, (track.frames.at(-1)?.seq ?? 0) + 1, last + (n === 0 ? after : EVERY), mass));
  }, from);

const still = (mass: number, seconds: number): number[] => Array.from({ length: seconds * 10 }, () => mass);
/** One pole, 15 to 85 % in so many ms. */
const setDown = (to: number, rise: number, seconds: number): number[] =>
  Array.from({ length: seconds * 10 }, (_, n) => Math.round((to * (1 - Math.exp((-(n + 1) * EVERY * 1.735) / rise))) / STEP) * STEP);

describe('how long a scale takes over a set-down', () => {
  it('is learnt from the set-down', () => {
    const track = heard([...still(0, 2), ...setDown(600_000, 1_000, 9)]);
    expect(track.stable).toBe(true);
    expect(learnRise(track, 0).rise).toBeGreaterThan(1_000);
    expect(learnRise(track, 0).rise).toBeLessThan(1_500);
  });

  it('is not learnt from what stood there all along', () => {
    expect(learnRise(heard(still(600_000, 4)), 0).rise).toBe(UNKNOWN);
    const slow = learnRise(heard([...still(0, 2), ...setDown(600_000, 1_000, 9)]), 0);
    expect(learnRise(heard(still(600_000, 15), slow), 0).rise).toBe(slow.rise);
  });

  it('is not learnt from a set-down that nobody heard the beginning of', () => {
    expect(learnRise(heard([200_000, 550_000, ...still(600_000, 4)]), 0).rise).toBe(UNKNOWN);
    const empty = heard(still(0, 2));
    expect(learnRise(heard(still(600_000, 4), empty, 4_000), 0).rise).toBe(UNKNOWN);
  });
});
