import { describe, expect, it } from 'vitest';
import {
  type Arrivals,
  LOOP_TICK_MS,
  NO_ARRIVALS,
  type Pace,
  STALL_MS,
  type Stall,
  UNWATCHED,
  afterStall,
  arrived,
  loopRan,
} from '#lib/measure/readings/burst';
import { monotonic } from '#lib/units/time';

const paces = (moments: readonly number[], period: number | null, from: Arrivals = NO_ARRIVALS): Pace[] => {
  let arrivals = from;
  return moments.map((moment) => {
    const next = arrived(arrivals, monotonic(moment), period);
    arrivals = next.arrivals;
    return next.pace;
  });
};

/** The stalls a watch reports when asked at these moments. */
const stalls = (moments: readonly number[]): Stall[] => {
  let watch = UNWATCHED;
  return moments.flatMap((moment) => {
    const next = loopRan(watch, monotonic(moment));
    watch = next.watch;
    return next.stall === null ? [] : [next.stall];
  });
};

const frozen = afterStall({ from: monotonic(0), to: monotonic(5000) });

describe('A3: what drains after a stall is not believed', () => {
  it('a stall is noticed by whatever comes first, the tick or the chunk, and told once', () => {
    expect(stalls([0, 50, 100, 100 + STALL_MS])).toEqual([]);
    expect(stalls([0, 50, 5050, 5050, 5100])).toEqual([{ from: 50, to: 5050 }]);
    expect(LOOP_TICK_MS * 2).toBeLessThan(STALL_MS);
  });

  it('45 frames that waited through five seconds are all thrown away, the next one waited for counts', () => {
    const backlog = Array.from({ length: 45 }, (_, at) => 5001 + Math.floor(at / 20));
    expect(paces([...backlog, 5095, 5195], 100, frozen)).toEqual([...backlog.map(() => 'stall-discard'), 'paced', 'paced']);
  });

  it('a backlog that its sender lets out little by little is thrown away to its end', () => {
    const trickle = Array.from({ length: 60 }, (_, at) => 5002 + at * 9);
    const { length } = trickle;
    expect(paces([...trickle, 5002 + length * 9 + 60], 100, frozen).lastIndexOf('stall-discard')).toBe(length - 1);
  });

  it('with nothing waiting, the first reading at its own pace counts', () => {
    expect(paces([5080], 100, frozen)).toEqual(['paced']);
    expect(paces([5020], 100, frozen)).toEqual(['stall-discard']);
  });

  it('an unknown rhythm is given a tenth of a second', () => {
    expect(paces([5090, 5200], null, frozen)).toEqual(['stall-discard', 'paced']);
  });

  it.each([100, 50, 25])('a rhythm learnt far too slow does not silence a scale that speaks every %i ms', (interval) => {
    const steady = Array.from({ length: 120 }, (_, at) => 5000 + (at + 1) * interval);
    expect(paces(steady, 1500, frozen)).toContain('paced');
  });
});

describe('bursts', () => {
  it('a reading within a fifth of the usual interval is marked', () => {
    expect(paces([0, 100, 119, 200, 220], 100)).toEqual(['paced', 'paced', 'burst', 'paced', 'paced']);
  });

  it('are not looked for before the rhythm is known', () => {
    expect(paces([0, 0, 1], null)).toEqual(['paced', 'paced', 'paced']);
  });
});
