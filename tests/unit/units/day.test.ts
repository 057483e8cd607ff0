import fc from '#tests/support/property';
import { describe, expect, it } from 'vitest';
import { addDays, dayAt, dayNumber, dayOf, daysBetween, isDay, readDay, weekdayOf } from '#lib/units/day';

describe('a day of the calendar', () => {
  it('is only what the calendar has', () => {
    expect(['2026-02-28', '2024-02-29', '2000-02-29'].every(isDay)).toBe(true);
    expect(['2026-02-29', '1900-02-29', '2026-13-01', '2026-04-31', '26-04-01', '2026-4-1', '', 'today'].some(isDay)).toBe(false);
  });

  it('goes over months, years and leap days', () => {
    expect(addDays('2026-12-31', 1)).toBe('2027-01-01');
    expect(addDays('2024-03-01', -1)).toBe('2024-02-29');
    expect(daysBetween('2026-01-01', '2027-01-01')).toBe(365);
    expect(() => addDays('2026-02-30', 1)).toThrow(RangeError);
  });

  it('there and back is the same day, and its weekday comes again after seven', () => {
    fc.assert(
      fc.property(fc.integer({ min: -700_000, max: 1_000_000 }), fc.integer({ min: -5_000, max: 5_000 }), (number, days) => {
        const day = dayAt(number);
        fc.pre(dayNumber(day) !== null);
        expect(dayNumber(day)).toBe(number);
        expect(addDays(addDays(day, days), -days)).toBe(day);
        expect(daysBetween(day, addDays(day, days))).toBe(days);
        expect(weekdayOf(addDays(day, 7))).toBe(weekdayOf(day));
        expect(weekdayOf(addDays(day, 1))).toBe((weekdayOf(day) % 7) + 1);
      }),
    );
  });

  it('has the weekday it had: 1969-07-20 was a Sunday, 2000-01-01 a Saturday', () => {
    expect([weekdayOf('1969-07-20'), weekdayOf('2000-01-01'), weekdayOf('1970-01-01')]).toEqual([7, 6, 4]);
  });

  it('is the workshop’s day, not the one in Greenwich', () => {
    const halfPastEleven = Date.UTC(2026, 10, 28, 23, 30);
    expect([dayOf(halfPastEleven, 0), dayOf(halfPastEleven, 60), dayOf(halfPastEleven, -300)]).toEqual([
      '2026-11-28',
      '2026-11-29',
      '2026-11-28',
    ]);
  });
});

describe('a day as somebody typed it', () => {
  it.each([
    ['2026-11-03', '2026-11-03'],
    [' 2026/11/3 ', '2026-11-03'],
    ['2026. 11. 3.', '2026-11-03'],
    ['25.12.2026', '2026-12-25'],
    ['12/25/2026', '2026-12-25'],
    ['11/11/2026', '2026-11-11'],
    ['30-4-2026', '2026-04-30'],
  ])('%s is one day', (text, day) => {
    expect(readDay(text)).toEqual({ kind: 'day', day });
  });

  it('is asked about where its order could be either', () => {
    expect(readDay('3.11.2026')).toEqual({ kind: 'ambiguous', readings: ['2026-11-03', '2026-03-11'] });
  });

  it.each(['', 'today', '3.11.26', '31.4.2026', '4/31/2026', '2026-13-01', '2026-02-30', '0/1/2026', '2026-11', '20261103'])(
    '%j is none',
    (text) => {
      expect(readDay(text)).toEqual({ kind: 'none' });
    },
  );
});
