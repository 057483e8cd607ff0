import { describe, expect, it } from 'vitest';
import { pastOf } from '#hardware/practice/history/history';
import { canonical } from '#lib/record/canonical';
import type { Json } from '#lib/record/journal';
import { review } from '#lib/work/batch/review';
import { upcastLines } from '#lib/work/batch/upcast';
import { controlChart } from '#lib/work/history/chart';
import { pointsOf } from '#lib/work/history/points';

const FROM = Date.UTC(2026, 0, 5);
const texts = (seed: number, batches = 6): readonly (readonly string[])[] =>
  [...pastOf({ seed, batches, realm: 'practice', from: FROM })].map(({ entries }) =>
    entries.map((entry) => canonical(entry as unknown as Json)),
  );

describe('the invented past', () => {
  it('is the same from the same seed and another from another', () => {
    expect(texts(3)).toEqual(texts(3));
    expect(texts(3)).not.toEqual(texts(4));
  });

  it('holds nothing but what a bench would have entered: each batch is read back, finished and reviewed with its results', () => {
    for (const lines of texts(5)) {
      const read = upcastLines(lines);
      if (!read.ok) throw new Error(read.failure.detail);
      const { summary, lines: weighed, poured } = review(read.entries);
      expect(summary).toMatchObject({ status: 'closed', realm: 'practice' });
      expect(weighed.every(({ outcome }) => outcome !== null)).toBe(true);
      expect(poured.kind).toBe('figures');
    }
  });

  it('has a drift of olive oil in it that the charts find, and none of shea butter', () => {
    const points = [...pastOf({ seed: 7, batches: 60, realm: 'practice', from: FROM })].flatMap(
      ({ entries }) => pointsOf(review(entries), entries) ?? [],
    );
    expect(points).toHaveLength(60);
    const chartOf = (line: string) => controlChart(points.map(({ lines }) => (lines.find((one) => one.line === line)?.away ?? 0) / 1000));
    const late = (chartOf('olive')?.signals ?? []).filter(({ at, side }) => at >= 36 && side === 'above');
    expect(late.map(({ rule }) => rule)).toContain('eight-on-one-side');
    expect((chartOf('shea')?.signals ?? []).filter(({ rule }) => rule === 'eight-on-one-side')).toEqual([]);
    expect(points.every(({ stops, superfat, seconds }) => stops.length > 0 && superfat !== null && seconds > 600)).toBe(true);
  });
});
