import { describe, expect, it } from 'vitest';
import { bulgesIn, laidIn, outstanding, withBulge, type Bulge } from '#lib/measure/readings/bulge';
import { follow, startTrack } from '#lib/measure/readings/settle';
import { massReading } from '#tests/support/mass-reading';

const DIVISION = 100;
const LEAST = 1_000;

/** What of 14 s a scale shows of `truth`, mg by ms, stands out, and what was laid in; g, at s. */
const seenOf = (truth: (at: number) => number): { readonly out: readonly number[]; readonly laid: readonly number[] } => {
  let track = startTrack(DIVISION);
  let bulges: readonly Bulge[] = [];
  const laid: number[] = [];
  for (let seq = 1; seq * 90 < 14_000; seq += 1) {
    track = follow(track, massReading(DIVISION, seq, seq * 90, Math.round(truth(seq * 90) / DIVISION) * DIVISION));
    for (const seen of bulgesIn(track, LEAST, 0)) bulges = withBulge(bulges, seen, track, LEAST);
    const one = laidIn(track, 1.5 * LEAST, 0);
    if (one !== null) laid.push(Math.round(one.size / 1000));
  }
  return { out: outstanding(bulges).map(({ size }) => Math.round(size / 1000)), laid };
};

/** A scale of one pole, 100 ms: what it shows so long after 1 was laid on it, and of 1 per ms after it began to flow. */
const shown = (at: number): number => (at <= 0 ? 0 : 1 - Math.exp(-at / 100));
const flowed = (at: number): number => (at <= 0 ? 0 : at - 100 * shown(at));
/** So many g/s from the second to the tenth second. */
const stream = (flow: number) => (at: number) => flow * (flowed(at - 2_000) - flowed(at - 10_000));

const paused = (at: number): number => 20 * (flowed(at - 2_000) - flowed(at - 6_000) + flowed(at - 7_000) - flowed(at - 11_000));
const gulp = (at: number): number => (at > 2_000 && at < 10_000 ? 3_000 * (1 - Math.cos((2 * Math.PI * at) / 900)) : 0);

describe('what stands out of a stream', () => {
  it.each([5, 20, 60])('is nothing where it flows evenly at %i g/s from its beginning to its end', (flow) => {
    expect(seenOf(stream(flow))).toEqual({ out: [], laid: [] });
  });

  it.each([8, -8])('is a cable that comes against the jar while it flows at 20 g/s: %i g', (force) => {
    const { out } = seenOf((at) => stream(20)(at) + 1000 * force * shown(at - 6_000));
    expect(out).toHaveLength(1);
    expect(Math.abs((out[0] ?? 0) - force)).toBeLessThanOrEqual(3);
  });

  it('is no hand that stops pouring for a second and goes on', () => {
    expect(seenOf(paused)).toEqual({ out: [], laid: [] });
  });

  it('is nothing in a stream that comes in gulps, each like the others', () => {
    expect(seenOf((at) => stream(20)(at) + gulp(at)).out).toEqual([]);
    expect(seenOf((at) => stream(20)(at) + gulp(at) + 30_000 * shown(at - 6_000)).out).toHaveLength(1);
  });

  it.each([
    [12, 10],
    [20, 20],
  ])('is %i g laid in half a second before a stream of %i g/s begins', (mass, flow) => {
    const begun = (at: number): number => flow * flowed(at - 5_200);
    expect(seenOf(begun)).toEqual({ out: [], laid: [] });
    const { out, laid } = seenOf((at) => begun(at) + 1000 * mass * shown(at - 4_700));
    expect(out.length + laid.length).toBeGreaterThan(0);
  });
});

const thinning = (at: number): number => 10 * (flowed(at - 6_000) - flowed(at - 6_900)) + 4 * (flowed(at - 6_900) - flowed(at - 12_000));

describe('what is laid in while nothing flows', () => {
  it('is as large as it is', () => {
    expect(seenOf((at) => 15_000 * shown(at - 6_000)).laid).toContain(15);
  });

  it.each([1.2, 1.5, 2])('is no squirt of %f s', (seconds) => {
    expect(seenOf((at) => 10 * (flowed(at - 6_000) - flowed(at - 6_000 - 1000 * seconds))).laid).toEqual([]);
  });

  it('is no beginning of a pour that thins', () => {
    expect(seenOf(thinning).laid).toEqual([]);
  });
});
