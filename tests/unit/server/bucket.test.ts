import { describe, expect, it } from 'vitest';
import { createBucket } from '#server/live/bucket';

describe('how fast a screen may speak', () => {
  let now = 0;
  /** Sends `perSecond` messages for `seconds` on a clock of its own. */
  const sending = (perSecond: number, seconds: number) => {
    const bucket = createBucket(() => now, 60, 30);
    const taken: boolean[] = [];
    for (let i = 0; i < perSecond * seconds; i += 1) {
      now += 1_000 / perSecond;
      taken.push(bucket.take());
    }
    return { bucket, taken: taken.filter(Boolean).length };
  };

  it('takes a burst and then so many a second, and counts what is refused however steadily it comes', () => {
    const { bucket, taken } = sending(150, 10);
    expect(taken).toBeGreaterThanOrEqual(60 + 30 * 10 - 1);
    expect(taken).toBeLessThanOrEqual(60 + 30 * 10 + 1);
    // Between two that are taken only four or five are refused in a row.
    expect(bucket.refused()).toBeGreaterThan(500);
  });

  it('forgets a burst of which the sender has come back from', () => {
    const { bucket } = sending(1_000, 0.2);
    const after = bucket.refused();
    expect(after).toBeGreaterThan(100);
    for (let i = 0; i < after; i += 1) {
      now += 100;
      expect(bucket.take()).toBe(true);
    }
    expect(bucket.refused()).toBe(0);
  });
});
