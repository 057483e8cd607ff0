import fc from '#tests/support/property';
import { describe, expect, it } from 'vitest';
import { addDays, daysBetween, weekdayOf } from '#lib/units/day';
import type { Day } from '#lib/units/day';
import { propose } from '#lib/work/orders/propose';
import type { Making, Workplace } from '#lib/work/orders/propose';
import { reserve } from '#lib/work/orders/reserve';
import type { Supply, Wanted } from '#lib/work/orders/reserve';

const TODAY = '2026-11-28';
const MEADOW: Making = {
  formula: 'meadow',
  moulds: { loaf: 2 },
  each: { loaf: 10 },
  bars: 20,
  label: 110,
  unmould: { early: 1, likely: 1, late: 3 },
  cut: { early: 0, likely: 0, late: 1 },
  cure: { early: 26, likely: 30, late: 38 },
};
const PLACE: Workplace = { today: TODAY, days: [1, 2, 3, 4, 5], batchesADay: 1, poured: 0, moulds: { loaf: 4 }, busy: [] };
const want = (order: string, bars: number, due: Day, more: Partial<Wanted> = {}): Wanted => ({
  order,
  formula: 'meadow',
  bars,
  label: null,
  due,
  ...more,
});
const lot = (mark: string, bars: number, by: Day, more: Partial<Supply> = {}): Supply => ({
  mark,
  formula: 'meadow',
  bars,
  label: 110,
  ready: { from: addDays(by, -10), likely: addDays(by, -5), by },
  ...more,
});

const takes = (low: number, high: number) =>
  fc
    .tuple(fc.integer({ min: low, max: high }), fc.integer({ min: 0, max: 4 }), fc.integer({ min: 0, max: 9 }))
    .map(([early, a, b]) => ({ early, likely: early + a, late: early + a + b }));

const making = (formula: string) =>
  fc.record({
    formula: fc.constant(formula),
    moulds: fc.record({ loaf: fc.integer({ min: 0, max: 2 }), round: fc.integer({ min: 0, max: 3 }) }),
    each: fc.constant({}),
    bars: fc.integer({ min: 1, max: 30 }),
    label: fc.constantFrom(null, 100, 120),
    unmould: takes(1, 2),
    cut: takes(0, 1),
    cure: takes(14, 40),
  });

describe('bars that are there', () => {
  it('go to what is due first, the oldest first, and only where they are ready in time and heavy enough', () => {
    const lots = [lot('26-10/1', 8, '2026-12-05'), lot('26-09/1', 5, '2026-11-01'), lot('26-11/1', 9, '2026-12-20')];
    const { reserved, free } = reserve([want('market', 10, '2026-12-12'), want('shop', 6, '2026-12-06')], lots);
    expect(reserved.map(({ wanted, taken, missing }) => [wanted.order, taken, missing])).toEqual([
      [
        'shop',
        [
          { mark: '26-09/1', bars: 5 },
          { mark: '26-10/1', bars: 1 },
        ],
        0,
      ],
      ['market', [{ mark: '26-10/1', bars: 7 }], 3],
    ]);
    expect(reserved[1]?.unsure).toEqual([{ mark: '26-11/1', bars: 3 }]);
    expect(free.map(({ mark, bars }) => [mark, bars])).toEqual([['26-11/1', 9]]);
    expect(reserve([want('shop', 2, '2026-12-06', { label: 120 })], lots).reserved[0]?.missing).toBe(2);
    expect(
      reserve([want('shop', 2, '2026-12-06', { label: 120 })], [lot('x', 9, '2026-01-01', { label: null })]).reserved[0]?.missing,
    ).toBe(2);
  });
});

describe('whole batches worked back from a day', () => {
  it('are poured on the last working day from which even a slow cure is over in time', () => {
    // 42 days at the latest before Saturday 2027-03-13 is Saturday 2027-01-30: nobody pours then, so the day before.
    const { batches, clashes, reserved } = propose([want('market', 18, '2027-03-13')], [], [MEADOW], PLACE);
    expect(batches).toMatchObject([{ pour: '2027-01-29', unmould: '2027-01-30', cut: '2027-01-30', bars: 20, spare: 2, late: 0 }]);
    expect(batches[0]?.ready).toEqual({ from: '2027-02-25', likely: '2027-03-01', by: '2027-03-12' });
    expect([clashes, reserved[0]?.missing]).toEqual([[], 0]);
  });

  it('say how many days are missing where today is too late, and are poured as soon as can be', () => {
    const { batches, clashes } = propose([want('market', 20, '2026-12-24')], [], [MEADOW], PLACE);
    // 2026-11-28 is a Saturday; the last safe day was 2026-11-12.
    expect(batches).toMatchObject([{ pour: '2026-11-30', late: 18 }]);
    expect(clashes).toEqual([{ what: 'too-late', order: 'market', formula: 'meadow', days: 18 }]);
    // Two batches of one day are late alike: said once.
    const both = propose([want('market', 40, '2026-12-24')], [], [MEADOW], { ...PLACE, batchesADay: 2 });
    expect([both.batches.length, both.clashes]).toEqual([2, clashes]);
  });

  it('count what was poured today already', () => {
    const place: Workplace = { ...PLACE, today: '2026-11-30', poured: 1 };
    expect(propose([want('market', 20, '2026-12-24')], [], [MEADOW], place).batches).toMatchObject([{ pour: '2026-12-01' }]);
  });

  it('move to an earlier day while moulds are full, and say so', () => {
    const place: Workplace = { ...PLACE, batchesADay: 3 };
    const { batches, clashes } = propose([want('market', 60, '2027-03-13')], [], [MEADOW], place);
    // Two batches fill all four loaves for three days; the third has to be out of them on Thursday at the latest.
    expect(batches.map(({ pour }) => pour)).toEqual(['2027-01-25', '2027-01-29', '2027-01-29']);
    expect(clashes).toEqual([{ what: 'moulds', order: 'market', formula: 'meadow', mould: 'loaf' }]);
  });

  it('have spare bars for what is due later, and nothing for what nobody knows how to make or what they are too light for', () => {
    const { batches, reserved, clashes } = propose(
      [
        want('shop', 12, '2027-03-13'),
        want('market', 8, '2027-04-10'),
        want('fair', 1, '2027-04-11', { formula: 'other' }),
        want('gift', 1, '2027-04-12', { label: 115 }),
      ],
      [],
      [MEADOW],
      PLACE,
    );
    expect(batches).toHaveLength(1);
    expect(reserved.filter(({ missing }) => missing > 0).map(({ wanted }) => wanted.order)).toEqual(['fair', 'gift']);
    expect(clashes.map(({ what }) => what)).toEqual(['unknown-making', 'label']);
  });

  it('are poured in time where nobody has said yet what their bars weigh, and that is said', () => {
    const unknown = { ...MEADOW, label: null };
    const { batches, clashes, reserved } = propose([want('gift', 1, '2027-04-12', { label: 115 })], [], [unknown], PLACE);
    expect([batches.length, reserved[0]?.missing]).toEqual([1, 0]);
    expect(clashes).toEqual([{ what: 'label', order: 'gift', formula: 'meadow', carries: null }]);
  });

  it('never promise a bar twice, nor pour on a day off, nor into a mould that is full', () => {
    const day = fc.integer({ min: 0, max: 160 }).map((n) => addDays(TODAY, n));
    const wants = fc.array(
      fc.record({
        formula: fc.constantFrom('a', 'b'),
        bars: fc.integer({ min: 1, max: 70 }),
        label: fc.constantFrom(null, 100, 120),
        due: day,
      }),
      { maxLength: 6 },
    );
    const supplies = fc.array(
      fc.record({
        formula: fc.constantFrom('a', 'b'),
        bars: fc.integer({ min: 1, max: 20 }),
        label: fc.constantFrom(null, 110, 130),
        by: day,
      }),
      { maxLength: 5 },
    );
    fc.assert(
      fc.property(
        wants,
        supplies,
        making('a'),
        making('b'),
        fc.subarray([1, 2, 3, 4, 5, 6, 7], { minLength: 1 }),
        (asked, there, a, b, days) => {
          const all = asked.map((one, at): Wanted => ({ ...one, order: `order-${at}` }));
          const lots = there.map((one, at) => lot(`lot-${at}`, one.bars, one.by, { formula: one.formula, label: one.label }));
          const place: Workplace = {
            today: TODAY,
            days,
            batchesADay: 2,
            poured: 0,
            moulds: { loaf: 3, round: 4 },
            busy: [{ mould: 'loaf', from: TODAY, until: addDays(TODAY, 9) }],
          };
          const { reserved, batches, clashes } = propose(all, lots, [a, b], place);
          const given = new Map<string, number>();
          for (const { wanted, taken, missing } of reserved) {
            expect(taken.reduce((sum, { bars }) => sum + bars, missing)).toBe(wanted.bars);
            for (const { mark, bars } of taken) given.set(mark, (given.get(mark) ?? 0) + bars);
            if (missing > 0) expect(clashes.some(({ order }) => order === wanted.order)).toBe(true);
          }
          for (const { mark, bars } of [...lots, ...batches]) expect(given.get(mark) ?? 0).toBeLessThanOrEqual(bars);
          for (const one of batches) {
            expect(days).toContain(weekdayOf(one.pour));
            expect(daysBetween(TODAY, one.pour)).toBeGreaterThanOrEqual(0);
            const due = all.find(({ order }) => order === one.order)?.due ?? '';
            if (one.late === 0) expect(one.ready.by <= due).toBe(true);
            else expect(daysBetween(due, one.ready.by)).toBe(one.late);
          }
          // Day by day, apart from how the days were found.
          for (let n = 0; n < 260; n += 1) {
            const now = addDays(TODAY, n);
            expect(batches.filter(({ pour }) => pour === now).length).toBeLessThanOrEqual(2);
            for (const [mould, count] of Object.entries({ loaf: 3, round: 4 })) {
              const full = batches.reduce(
                (sum, { formula, pour }) => {
                  const of = formula === 'a' ? a : b;
                  return sum + (pour <= now && now <= addDays(pour, of.unmould.late) ? (of.moulds[mould as 'loaf' | 'round'] ?? 0) : 0);
                },
                mould === 'loaf' && n <= 9 ? 1 : 0,
              );
              expect(full).toBeLessThanOrEqual(count);
            }
          }
        },
      ),
      { numRuns: 25, seed: 4 },
    );
  });
});
