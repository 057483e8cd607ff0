import fc from '#tests/support/property';
import { describe, expect, it } from 'vitest';
import { clockJump, STEP_MS } from '#lib/bench/clock-watch';

const look = (mono: number, wall: number, up: number | null = null) => ({ mono, wall, up });

describe('B10: the clocks are compared with one another', () => {
  it.each([
    ['two hours forward', 7_200_000],
    ['two hours back', -7_200_000],
    ['one second forward', 1_000],
  ])('sees the wall clock step %s', (_what, by) => {
    expect(clockJump(look(1_000, 5_000), look(1_100, 5_100 + by))).toEqual({ kind: 'wall-step', byMs: by });
    expect(clockJump(look(1_000, 5_000, 9_000), look(1_100, 5_100 + by, 9_100))).toEqual({ kind: 'wall-step', byMs: by });
  });

  it('tells a suspend, through which the monotonic clock stands still, by the up-time', () => {
    expect(clockJump(look(1_000, 5_000, 9_000), look(1_100, 3_605_100, 3_609_100))).toEqual({ kind: 'suspend', byMs: 3_600_000 });
  });

  it('sees nothing while the clocks run together, however long the process stood still, nor while they are slewed', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 100_000 }), fc.integer({ min: 1 - STEP_MS, max: STEP_MS - 1 }), (ran, slew) => {
        expect(clockJump(look(0, 0, 0), look(ran, ran + slew, ran))).toBeNull();
      }),
    );
  });
});
