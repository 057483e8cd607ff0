import fc from '#tests/support/property';
import { describe, expect, it } from 'vitest';
import { buyingList } from '#lib/work/orders/buying';
import { costOfBar } from '#lib/work/orders/cost';
import { iCalendar } from '#lib/work/orders/icalendar';
import { overfull } from '#lib/work/orders/shelf-room';

describe('what is to be bought', () => {
  const needs = [
    { thing: 'olive', amount: 700_000, day: '2026-12-10', for: 'next 2' },
    { thing: 'olive', amount: 700_000, day: '2026-12-03', for: 'next 1' },
    { thing: 'soda', amount: 140_000, day: '2026-12-03', for: 'next 1' },
    { thing: 'wrap', amount: 20, day: '2027-01-12', for: 'next 1' },
  ];

  it('is what the first batches leave short, in whole packs, by the day it has to be ordered', () => {
    const known = [
      { thing: 'olive', onHand: 900_000, pack: 1_000_000, days: 5 },
      { thing: 'soda', onHand: 150_000, pack: null, days: 9 },
      { thing: 'wrap', onHand: -3, pack: 10, days: 30 },
    ];
    expect(buyingList(needs, known, '2026-12-06')).toEqual([
      {
        thing: 'olive',
        short: 500_000,
        packs: 1,
        amount: 1_000_000,
        neededOn: '2026-12-10',
        orderBy: '2026-12-05',
        late: true,
        for: ['next 2'],
      },
      { thing: 'wrap', short: 23, packs: 3, amount: 30, neededOn: '2027-01-12', orderBy: '2026-12-13', late: false, for: ['next 1'] },
    ]);
  });

  it('is the bare amount of what nobody knows anything of', () => {
    expect(buyingList([{ thing: 'clay', amount: 4, day: '2026-12-03', for: 'x' }], [], '2026-12-01')).toMatchObject([
      { short: 4, packs: null, amount: 4, orderBy: '2026-12-03', late: false },
    ]);
  });
});

describe('what a bar costs', () => {
  it('is all that went into the batch, its wraps and its time, borne by the bars that are sold', () => {
    const used = [
      { material: 'olive', lot: 'a', mass: 400_000, perGram: 0.01 },
      { material: 'olive', lot: 'b', mass: 300_000, perGram: 0.02 },
      { material: 'soda', lot: 'c', mass: 140_000, perGram: null },
    ];
    const cost = costOfBar(used, 20, [{ perBar: 2, price: 0.05 }], 90, 16);
    expect(cost?.materials).toBeCloseTo(0.5, 12);
    expect(cost?.packaging).toBeCloseTo(0.1, 12);
    expect(cost?.time).toBeCloseTo(1.2, 12);
    expect(cost?.whole).toBeCloseTo(1.8, 12);
    expect(cost?.unknown).toEqual(['soda']);
    expect(costOfBar(used, 0, [], null, null)).toBeNull();
  });
});

describe('room on the shelf', () => {
  it('is too little from the day on which more lies there, by as much as it comes to', () => {
    const moves = [
      { day: '2026-12-01', bars: 20 },
      { day: '2026-12-05', bars: 30 },
      { day: '2026-12-09', bars: -40 },
      { day: '2026-12-20', bars: 35 },
      { day: '2026-12-21', bars: 10 },
    ];
    expect(overfull(40, moves, 80)).toEqual([
      { day: '2026-12-05', over: 10 },
      { day: '2026-12-20', over: 15 },
    ]);
    expect(overfull(0, [], 0)).toEqual([]);
  });
});

describe('a calendar to subscribe to (RFC 5545)', () => {
  const stamp = Date.UTC(2026, 10, 28, 9, 5, 7);

  it('has whole days, ids of its own and nothing a reader would trip over', () => {
    const file = iCalendar(
      'Workshop',
      [{ id: 'pour-1', day: '2026-12-31', hours: null, title: 'Pour; meadow, 2 loaves', note: 'last\nsafe \\ day' }],
      stamp,
      'potwatch',
    );
    expect(file.split('\r\n')).toEqual([
      'BEGIN:VCALENDAR',
      'VERSION:2.0',
      'PRODID:-//Potwatch//Workshop days//EN',
      'CALSCALE:GREGORIAN',
      'METHOD:PUBLISH',
      'NAME:Workshop',
      'BEGIN:VEVENT',
      'UID:pour-1@potwatch',
      'DTSTAMP:20261128T090507Z',
      'DTSTART;VALUE=DATE:20261231',
      'DTEND;VALUE=DATE:20270101',
      String.raw`SUMMARY:Pour\; meadow\, 2 loaves`,
      String.raw`DESCRIPTION:last\nsafe \\ day`,
      'TRANSP:TRANSPARENT',
      'END:VEVENT',
      'END:VCALENDAR',
      '',
    ]);
  });

  it('rings at the hour where hours count', () => {
    const hours = { from: Date.UTC(2026, 11, 31, 8, 30), to: Date.UTC(2026, 11, 31, 9, 30) };
    const lines = iCalendar('w', [{ id: 'x', day: '2026-12-31', hours, title: 'Unmould 26-1/1', note: '' }], stamp, 'h').split('\r\n');
    expect(lines).toContain('DTSTART:20261231T083000Z');
    expect(lines).toContain('DTEND:20261231T093000Z');
    const alarm = lines.indexOf('BEGIN:VALARM');
    expect(lines.slice(alarm, alarm + 5)).toEqual([
      'BEGIN:VALARM',
      'ACTION:DISPLAY',
      'TRIGGER:PT0S',
      'DESCRIPTION:Unmould 26-1/1',
      'END:VALARM',
    ]);
  });

  it('folds at 75 octets, inside no character, and reads back as it was written', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 200 }), (title) => {
        const file = iCalendar('w', [{ id: 'x', day: '2026-12-31', hours: null, title, note: '' }], stamp, 'h');
        for (const line of file.split('\r\n')) expect(new TextEncoder().encode(line).length).toBeLessThanOrEqual(75);
        const summary =
          file
            .replaceAll('\r\n ', '')
            .split('\r\n')
            .find((line) => line.startsWith('SUMMARY:')) ?? '';
        const back = summary.slice(8).replaceAll(/\\([\\;,n])/g, (_, mark: string) => (mark === 'n' ? '\n' : mark));
        // oxlint-disable-next-line no-control-regex
        expect(back).toBe(title.replaceAll(/\r\n?/g, '\n').replaceAll(/[\u0000-\u0009\u000B-\u001F\u007F]/g, ' '));
      }),
      { seed: 7 },
    );
  });
});
