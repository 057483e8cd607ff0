import { describe, expect, it } from 'vitest';
import { grams } from '#lib/units/mass';
import { followedBy, lessonsIn, sinceCut } from '#lib/work/bars/cure';
import { cutBefore, dueOf, photoDue } from '#lib/work/bars/due';
import { summaryOf } from '#lib/work/bars/index';
import type { BarsSummary, UnmouldState } from '#lib/work/bars/index';
import { windowOf } from '#lib/work/bars/unmould';
import { barsRig, BEGUN, DAY, HOUR, POURED } from '#tests/support/bars';

const NOW = { note: '', room: null };

/** A lot that was answered so at these hours, cut a day after the last and weighed on these days from then. */
const lot = (id: string, answers: readonly (readonly [UnmouldState, number])[], weighed: readonly number[] = [], late = 0): BarsSummary => {
  const rig = barsRig(id as never);
  rig.send('begin', BEGUN);
  for (const [state, hours] of answers) rig.send('note-unmould', { state, ...NOW }, POURED + hours * HOUR);
  if (weighed.length > 0) {
    const cut = { count: 10, ends: 0, testers: 0, thickness: null, log: null, mass: grams(120) };
    rig.send('cut', { cutter: { id: null, name: 'Knife', kind: 'adjustable' }, ...cut }, POURED + 2 * DAY);
  }
  for (const day of weighed) {
    const net = grams(120 - day / 7);
    rig.send('type-weight', { bar: 3, for: 'cure', typed: { net, text: '', unit: 'g' } }, POURED + (2 + late + day) * DAY + HOUR);
  }
  return summaryOf(rig.state());
};

describe('when a log can come out', () => {
  const fresh = lot('new', []);

  it('is common practice until two lots came out clean, then their hours, not before one was still too soft', () => {
    const one = lot('a', [['out', 40]]);
    expect(windowOf(fresh, [one], null)).toMatchObject({ from: 24, to: 48, by: 'practice', clean: { lots: 1, least: 40 } });
    expect(windowOf(fresh, [one], { id: 'f1', from: 36, to: 60, latestCut: null })).toMatchObject({ from: 36, to: 60, by: 'said' });
    const two = [one, lot('b', [['too-soft', 35], ['out', 50]])]; // prettier-ignore
    expect(windowOf(fresh, two, null)).toMatchObject({ from: 40, to: 50, by: 'answers' });
    expect(windowOf(fresh, [...two, lot('c', [['stuck', 46], ['out', 60]])], null)).toMatchObject({ from: 46, to: 60, slow: true }); // prettier-ignore
  });

  it('is looked at by the latest hour it is to be cut at, and shows the rooms others stood in', () => {
    const said = { id: 'f1', from: null, to: null, latestCut: 30 };
    const [a, b] = [lot('a', [['out', 40]]), lot('b', [['out', 50]])];
    expect(windowOf(fresh, [], said)).toMatchObject({ from: 24, to: 30, latest: 30 });
    expect(windowOf(fresh, [a, b], said)).toMatchObject({ from: 30, to: 30, clean: { least: 40, room: null } });
    expect(windowOf(fresh, [a, b], null).latest).toBeNull();
    expect(cutBefore(fresh, said)).toBe(POURED + 30 * HOUR);
    expect(cutBefore(lot('c', [['out', 20]], [0]), said)).toBeNull();
    const warm = { ...b, answers: [{ state: 'out' as const, minutes: 3000, room: 23_000 }] };
    expect(windowOf(fresh, [a, warm], null).clean?.room).toEqual({ lots: 1, least: 23_000, most: 23_000 });
  });

  it('learns from its own formula and not from itself', () => {
    const other = { ...lot('a', [['out', 90]]), formula: { id: 'other', name: '', version: 1 } };
    expect(windowOf(fresh, [other, other], null).by).toBe('practice');
    const own = lot('new', [['out', 90]]);
    expect(windowOf(own, [own, lot('b', [['out', 30]])], null).clean).toMatchObject({ lots: 1, most: 30 });
  });
});

describe('what the forecast goes by', () => {
  it('counts from cutting, however late it was first weighed', () => {
    expect(followedBy(lot('a', [['out', 40]]))).toBe('not-cut');
    expect(followedBy(lot('a', [['out', 40]], [0, 7]))).toMatchObject({ basis: 'weighed', from: POURED + 2 * DAY, firstWeight: 120 });
    const late = followedBy(lot('a', [['out', 40]], [0, 7], 9));
    if (typeof late === 'string') throw new Error(late);
    expect(late).toMatchObject({ basis: 'late', from: POURED + 2 * DAY, firstWeight: 120 });
    expect([late.watch.from, late.watch.weighings[0]?.day]).toEqual([expect.closeTo(9, 0), expect.closeTo(16, 0)]);
    // A tenth was gone by day 9: it was cut at more, and has lost more since.
    const { cutWeight, points } = sinceCut(late, { loss: Array.from({ length: 121 }, () => ({ low: 0.09, middle: 0.1, high: 0.11 })) });
    expect(cutWeight).toBeCloseTo(120 / 0.9, 9);
    expect(points.map(({ loss }) => loss)).toEqual([0.1, expect.closeTo(1 - 0.9 * (119 / 120), 9)]);
    expect(followedBy({ ...lot('a', [['out', 40]], [0]), water: null })).toBe('no-water');
    const found = followedBy(lot('a', [['out', 40]], [0, 7]));
    expect(typeof found === 'string' ? [] : found.watch.weighings).toEqual([
      { day: expect.closeTo(7, 0), loss: expect.closeTo(1 / 120, 6) },
    ]);
  });

  it('learns from lots that were followed long enough, oldest first', () => {
    const lots = [lot('a', [['out', 40]], [0, 14, 30]), lot('b', [['out', 40]], [0, 7]), lot('c', [['out', 40]], [0, 14, 30], 5)];
    expect(lessonsIn(lots).map(({ id }) => id)).toEqual(['a']);
  });
});

const by = (row: BarsSummary, hours: number) =>
  dueOf(row, { window: windowOf(row, [], null), photos: [0, 4], forecast: null, now: POURED + hours * HOUR });

it('says what is due: out, cut, weigh, photograph; nothing of a lot in the freezer or gone', () => {
  expect(by(lot('a', []), 20)).toEqual([]);
  expect(by(lot('a', []), 25)).toEqual(['unmould']);
  expect(by(lot('a', [['freezer', 26]]), 60)).toEqual([]);
  expect(by(lot('a', [['out', 30]]), 40)).toEqual(['cut']);
  const cut = lot('a', [['out', 40]], [0]);
  expect(by(cut, 60)).toEqual(['photo']);
  expect(by({ ...cut, weighings: [] }, 60)).toEqual(['weigh', 'photo']);
  expect(by({ ...cut, counts: { ...cut.counts, shelf: 0 } }, 60)).toEqual([]);
  expect([photoDue([0, 4, 14], [5], 13), photoDue([0, 4, 14], [5], 15), photoDue([0, 4], [], 12)]).toEqual([null, 14, null]);
});
