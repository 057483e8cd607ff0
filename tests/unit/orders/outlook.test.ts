import { describe, expect, it } from 'vitest';
import { addDays } from '#lib/units/day';
import { as } from '#lib/units/id';
import { grams } from '#lib/units/mass';
import { barsIdOf, summaryOf } from '#lib/work/bars/index';
import type { BarsSummary } from '#lib/work/bars/index';
import { NO_TRADE } from '#lib/work/orders/documents';
import type { Goods, Order } from '#lib/work/orders/documents';
import { outlookOf } from '#lib/work/orders/outlook';
import type { Facts } from '#lib/work/orders/outlook';
import { BEGUN, DAY, POURED, barsRig } from '#tests/support/bars';

const weighFirst = (day: string): ReadonlyMap<string, string> => new Map([[barsIdOf(as('b11'), 1), day]]);

/** Sunday 2026-04-12, the day the first log was poured. */
const SUNDAY = '2026-04-12';

/** A log poured some days after the first; cut into ten after two days where `cut`. */
const log = (n: number, days: number, cut: boolean): BarsSummary => {
  const poured = POURED + days * DAY;
  const rig = barsRig(barsIdOf(as(`b${n}`), 1));
  rig.send('begin', { ...BEGUN, mark: `26-${n}/1`, of: { ...BEGUN.of, batch: as(`b${n}`), mark: `26-${n}` }, poured }, poured);
  if (cut) {
    rig.send('note-unmould', { state: 'out', note: '', room: null }, poured + DAY);
    const cutter = { id: null, name: 'wire', kind: 'adjustable' } as const;
    rig.send('cut', { cutter, count: 10, ends: 2, testers: 1, thickness: 24_250, log: null, mass: grams(124) }, poured + 2 * DAY);
    rig.send('label', { net: grams(105) }, poured + 2 * DAY);
  }
  const state = rig.state();
  if (state === null) throw new Error('no bars');
  return summaryOf(state);
};

const order = (id: string, bars: number, due: string, more: Partial<Order> = {}): Order => ({
  id,
  kind: 'market',
  name: `Market ${id}`,
  buyer: null,
  due,
  wants: [{ formula: 'f1', bars, label: null }],
  state: 'open',
  note: '',
  ...more,
});

const BAND: Goods = { id: 'band', kind: 'wrap', name: 'Paper band', pack: '50', price: '6', days: 10, perBar: '1', onHand: 4 };
const facts = (more: Partial<Facts> = {}): Facts => ({
  today: addDays(SUNDAY, 10),
  offsetMin: 0,
  formulas: [{ id: 'f1', name: 'Alder & oat', moulds: [{ mould: 'long', count: 2, fill: '95' }] }],
  moulds: [{ id: 'long', name: 'Long log', shape: { kind: 'box', length: '254', width: '70', depth: '60' }, lengthU: null }],
  rows: [log(11, 0, true), log(12, 9, false)],
  forecasts: new Map([[barsIdOf(as('b11'), 1), { from: POURED + 2 * DAY, ready: { low: 27, middle: 30, high: 40 } }]]),
  unmould: [],
  trade: { ...NO_TRADE, moulds: { long: { owned: 3, bars: null } } },
  cure: () => ({ early: 28, likely: 35, late: 52 }),
  orders: [],
  goods: [],
  onHand: {},
  takes: () => ({ olive: 1_400_000 }),
  weigh: new Map(),
  serving: [],
  wrapped: [],
  ...more,
});

/** Bars that cure or stand in their moulds, and those of batches to come. */
const wrapped = (batches: readonly { readonly bars: number }[]): number =>
  2 * log(11, 0, true).counts.made + batches.reduce((sum, { bars }) => sum + bars, 0);

/** Nine bars for June, so many of them sold or taken along. */
const june = (sold: number, away: number) => {
  const serving = [{ ...log(11, 0, true), orders: [{ order: 'june', sold, given: 0, away }] }];
  return outlookOf(facts({ orders: [order('june', 9, '2026-08-01')], serving }));
};
const reserved = (sold: number, away: number) =>
  june(sold, away).reserved.map(({ wanted, taken }) => [wanted.bars, taken.map(({ bars }) => bars)]);
const latest = (latestCut: number) => [{ id: 'f1', from: null, to: null, latestCut }];

const around = (bars: number) => ({ bars, used: [{ goods: 'band', lot: null, pieces: bars }] });

describe('what the workshop has before it', () => {
  it('makes a formula as its own newest lots were made', () => {
    const [making] = outlookOf(facts()).makings;
    const sellable = log(11, 0, true).counts.made;
    expect(making).toMatchObject({
      formula: 'f1',
      moulds: { long: 2 },
      bars: 2 * sellable,
      label: 105,
      cut: { early: 1, likely: 1, late: 1 },
      cure: { early: 27, likely: 30, late: 40 },
    });
  });

  it('promises bars that are cut by their forecast, logs as their formula is usually made, and held ones to nobody', () => {
    const { supplies } = outlookOf(facts());
    expect(supplies.map(({ mark, label, ready }) => [mark, label, ready.by])).toEqual([
      // Cut on 14 April, ready 40 days later at the latest.
      ['26-11/1', 105, '2026-05-24'],
      // Poured on 21 April: out after two days at the latest, cut the day after, cured 40.
      ['26-12/1', 105, '2026-06-03'],
    ]);
    const held = facts({ rows: facts().rows.map((row) => ({ ...row, held: 'a complaint' })) });
    expect(outlookOf(held).supplies).toEqual([]);
  });

  it('a forecast that has no end promises nothing', () => {
    const [id] = [...facts().forecasts.keys()];
    const late = facts({ forecasts: new Map([[id ?? '', { from: POURED, ready: { low: 90, middle: 'later', high: 'later' } }]]) });
    expect(outlookOf(late).supplies.map(({ mark }) => mark)).not.toContain('26-11/1');
  });

  it('a log that stands in its mould keeps it from the next batch', () => {
    // Two of three moulds are asked for; one is full until 23 April, the other two are taken by the batch itself.
    const wanted = [order('may', 30, '2026-06-05')];
    const one = outlookOf(facts({ orders: wanted, trade: { ...NO_TRADE, moulds: { long: { owned: 2, bars: null } } } }));
    expect(one.batches.every(({ pour }) => pour > '2026-04-23')).toBe(true);
    expect(one.clashes).toContainEqual(expect.objectContaining({ what: 'too-late' }));
  });

  it('lists what has to be bought, wraps too, and what must happen when', () => {
    const { batches, buying, agenda, reserved } = outlookOf(
      facts({
        orders: [order('june', 40, '2026-08-01')],
        goods: [BAND, { ...BAND, id: 'olive', kind: 'material', name: '', pack: '1000', days: 3, perBar: null, onHand: null }],
      }),
    );
    expect(reserved.every(({ missing }) => missing === 0)).toBe(true);
    expect(batches.length).toBeGreaterThan(0);
    expect(buying.map(({ thing, packs }) => [thing, packs])).toEqual([
      // Bars that cure still are wrapped before any that are to be poured.
      ['band', 1],
      ['olive', 2],
    ]);
    const [band] = buying;
    expect([band?.neededOn, band?.for[0], band?.short]).toEqual(['2026-05-14', '26-11/1', wrapped(batches) - 4]);
    const days = agenda.map(({ day }) => day);
    expect(days).toEqual(days.toSorted());
    expect(new Set(agenda.map(({ id }) => id)).size).toBe(agenda.length);
    expect(agenda.map(({ task }) => task.kind)).toEqual(expect.arrayContaining(['unmould', 'ready', 'buy', 'pour', 'cut', 'due']));
    // The log poured on the 21st is due out on the 22nd, which is today.
    expect(agenda.find(({ task }) => task.kind === 'unmould' && !task.planned)?.day).toBe('2026-04-22');
  });

  it('asks for wraps of what nobody has wrapped, and of ready bars from the first lot on of which somebody did', () => {
    const bands = (more: Partial<Facts>) => outlookOf(facts({ goods: [BAND], ...more })).buying.map(({ thing, short }) => [thing, short]);
    const [cut, inMould] = facts().rows as [Facts['rows'][number], Facts['rows'][number]];
    // Ten that cure and ten in their mould, four on hand.
    expect(bands({})).toEqual([['band', 16]]);
    const wrapped = { ...cut, wrapped: around(7) };
    // Seven less to wrap, and seven pieces less on hand.
    expect(bands({ rows: [wrapped, inMould], wrapped: [wrapped] })).toEqual([['band', 16]]);
    expect(bands({ rows: [wrapped, inMould], wrapped: [wrapped], goods: [{ ...BAND, onHand: 4, drawn: 7 }] })).toEqual([['band', 9]]);
    // In June it is ready: who never enters a wrapping has wrapped it long ago.
    const june = { today: '2026-06-01', rows: [cut] };
    expect(bands(june)).toEqual([]);
    expect(bands({ ...june, rows: [wrapped], wrapped: [wrapped] })).toEqual([['band', 6]]);
    // Sold ones were wrapped first: three of ten are left, and of those none.
    const sold = { ...wrapped, counts: { ...wrapped.counts, shelf: 3, sold: 7 } };
    expect(bands({ ...june, rows: [sold], wrapped: [sold], goods: [{ ...BAND, drawn: 7 }] })).toEqual([]);
    // None goes around another soap.
    expect(bands({ goods: [{ ...BAND, only: 'other' }] })).toEqual([]);
  });

  it('asks to cut a log that came out torn, and to weigh nothing that is ready by then', () => {
    const rig = barsRig(barsIdOf(as('b13'), 1));
    rig.send('begin', { ...BEGUN, mark: '26-13/1' }, POURED + 8 * DAY);
    rig.send('note-unmould', { state: 'torn', note: '', room: null }, POURED + 9 * DAY);
    const rows = [log(11, 0, true), summaryOf(rig.state())];
    const kinds = (more: Partial<Facts>) => outlookOf(facts({ rows, ...more })).agenda.map(({ task }) => task.kind);
    // 26-11/1 was cut on the 14th of April and is likely ready on the 14th of May.
    expect(kinds({ weigh: weighFirst('2026-05-01') })).toEqual(['cut', 'weigh', 'ready']);
    expect(kinds({ weigh: weighFirst('2026-05-14') })).toEqual(['cut', 'ready']);
    expect(kinds({ weigh: weighFirst('2026-04-30'), today: '2026-05-20' })).toEqual(['cut', 'ready']);
  });

  it('a log wants to be cut before the latest hour of its formula, and is looked at by then', () => {
    const of = (more: Partial<Facts>) => outlookOf(facts({ rows: [log(12, 9, false)], today: '2026-04-21', ...more })).agenda;
    const before = POURED + 9 * DAY + 20 * 3_600_000;
    // Poured on the 21st at nine: twenty hours on is the 22nd at five, before the usual day is over.
    expect(of({ unmould: latest(20) })).toMatchObject([
      { day: '2026-04-22', hours: { from: before }, task: { kind: 'unmould', from: before, before } },
      { day: '2026-04-22', hours: { to: before }, task: { kind: 'cut', before } },
    ]);
    expect(of({ unmould: latest(20), today: '2026-04-25' }).map(({ day, hours }) => [day, hours])).toEqual([
      ['2026-04-25', null],
      ['2026-04-25', null],
    ]);
    expect(of({})).toMatchObject([{ task: { kind: 'unmould', before: null } }]);
    // In the freezer it waits for a person; the hour it is to be cut by stands all the same.
    const cold = [{ ...log(12, 9, false), unmould: { state: 'freezer' as const, wall: POURED } }];
    expect(of({ rows: cold, unmould: latest(20) }).map(({ task }) => task.kind)).toEqual(['cut']);
    // A batch to come is planned so that it is cut in time.
    const slow = [log(11, 0, true)];
    const making = (more: Partial<Facts>) => outlookOf(facts({ rows: slow, ...more })).makings[0];
    expect(making({})).toMatchObject({ unmould: { likely: 1, late: 2 }, cut: { likely: 1 } });
    expect(making({ unmould: latest(30) })).toMatchObject({ unmould: { likely: 1, late: 1 }, cut: { early: 0, likely: 0, late: 0 } });
  });

  it('promises no more than what is still to be handed over, and has no day for what is all there', () => {
    expect(reserved(0, 0)).toEqual([[9, [9]]]);
    expect(reserved(4, 2)).toEqual([[3, [3]]]);
    expect(june(4, 2).agenda.find(({ task }) => task.kind === 'due')?.task).toMatchObject({ bars: 3 });
    expect(reserved(9, 0)).toEqual([]);
    expect(june(9, 0)).toMatchObject({ stands: { june: { asked: 9, over: 9, open: 0 } } });
    expect(june(9, 0).agenda.some(({ task }) => task.kind === 'due')).toBe(false);
  });

  it('says when the shelf is too small', () => {
    const small = { ...NO_TRADE, shelf: 12, moulds: { long: { owned: 3, bars: null } } };
    const cut = [log(11, 0, true)];
    const { crowded, batches } = outlookOf(facts({ rows: cut, orders: [order('june', 40, '2026-08-01')], trade: small }));
    expect(crowded[0]?.day).toBe(batches[0]?.cut);
    expect(crowded[0]?.over).toBeGreaterThan(0);
    // Ten lie there; a log of 21 April that is out after a day and cut the next brings as many to each of its moulds.
    const { moulds, counts } = log(11, 0, true);
    expect(outlookOf(facts({ trade: small })).crowded).toEqual([{ day: '2026-04-23', over: counts.shelf + moulds * counts.made - 12 }]);
  });

  it('says of which formulas nobody can say what they take', () => {
    const { unplanned, buying } = outlookOf(facts({ orders: [order('june', 40, '2026-08-01')], takes: () => null }));
    expect([unplanned, buying]).toEqual([['f1'], []]);
  });

  it('asks nothing for what is done or dropped', () => {
    const done = facts({ orders: [order('a', 99, '2026-08-01', { state: 'done' }), order('b', 99, '2026-08-01', { state: 'dropped' })] });
    expect(outlookOf(done)).toMatchObject({ batches: [], reserved: [], buying: [], clashes: [] });
  });
});
