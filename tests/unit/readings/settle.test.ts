import { describe, expect, it } from 'vitest';
import { dwell, follow, startTrack } from '#lib/measure/readings/settle';
import type { Track } from '#lib/measure/readings/settle';
import { massReading } from '#tests/support/mass-reading';

const DIVISION = 100;
const PERIOD = 100;

/** The track after more frames of one weight, one at each moment. */
const after = (track: Track, moments: readonly number[]): Track =>
  moments.reduce((now, at) => follow(now, massReading(DIVISION, at, at, 50_000)), track);
const every = (from: number, to: number): number[] => Array.from({ length: (to - from) / PERIOD }, (_, i) => from + (i + 1) * PERIOD);

describe('A3: a weight does not settle by frames that had piled up', () => {
  const settled = after(startTrack(DIVISION), every(0, 4_000));

  it('settles by frames that come one by one, and by two at once as a USB line may bring them', () => {
    expect(settled.stable).toBe(true);
    const twos = every(4_000, 8_000).map((at) => Math.ceil(at / (2 * PERIOD)) * 2 * PERIOD);
    expect(after(settled, twos)).toMatchObject({ stable: true });
  });

  it('begins anew behind a burst, and stands again a whole dwell later', () => {
    // A hold-up shorter than any gap, and what waited in it all at once.
    const burst = after(settled, [4_450, 4_450, 4_450, 4_450]);
    expect(burst).toMatchObject({ news: 'burst', stable: false });
    // The first frames behind it still count as drained.
    const frames = Math.ceil(dwell(burst) / PERIOD);
    expect(after(burst, every(4_450, 4_450 + (frames - 1) * PERIOD)).stable).toBe(false);
    expect(after(burst, every(4_450, 4_450 + (frames + 4) * PERIOD)).stable).toBe(true);
  });

  it('begins anew behind a gap', () => {
    expect(after(settled, [5_000])).toMatchObject({ news: 'gap', stable: false });
  });
});
