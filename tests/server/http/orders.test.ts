import { describe, expect, it } from 'vitest';
import type { BarsList, BarsPage } from '#lib/protocol/bars';
import type { FollowLot } from '#lib/protocol/lots';
import type { CostPage, OrdersPage } from '#lib/protocol/orders';
import { addDays } from '#lib/units/day';
import { USUAL_CURE } from '#lib/work/bars/documents';
import { NO_TRADE } from '#lib/work/orders/documents';
import { entry, formula, mass, SODA, WATER, WORKSHOP } from '#tests/support/formula';
import { servedRecord } from '#tests/support/served-record';

const LOAF = { id: 'loaf', name: 'Loaf', shape: { kind: 'box', length: '254', width: '70', depth: '60' }, lengthU: null };

describe('orders over HTTP', () => {
  const { at, get, post: send, intent } = servedRecord([{ batch: 'b1', lines: 3, stripBytes: 64, struckLine: 2 }]);
  const post = async (path: string, body: object): Promise<void> => {
    const answer = await send(path, body);
    expect([path, answer.status, answer.status === 200 ? '' : answer.body]).toEqual([path, 200, '']);
  };
  const put = (noun: string, id: string, document: object): Promise<void> =>
    post(`/shelf/${noun}/${id}`, { expected: 0, note: '', document: { id, ...document } });

  it('ask for nothing in a workshop that has none', async () => {
    expect(await get<OrdersPage>('/orders')).toMatchObject({
      orders: [],
      trade: NO_TRADE,
      outlook: { batches: [], buying: [], agenda: [] },
    });
  });

  it('become batches on the last safe day, what has to be bought for them, and days of a calendar', async () => {
    await put('mould', 'loaf', LOAF);
    await put('formula', 'meadow', formula({ id: 'meadow', name: 'Meadow', moulds: [{ mould: 'loaf', count: 1, fill: '95' }] }));
    await put('trade', 'maker', { ...NO_TRADE, days: [1, 2, 3, 4, 5, 6, 7], moulds: { loaf: { owned: 1, bars: 10 } } });
    await put('goods', 'band', { kind: 'wrap', name: 'Paper band', pack: '100', price: '6', days: 3, perBar: '1', onHand: 4 });
    const { today } = await get<OrdersPage>('/orders');
    const due = addDays(today, 150);
    const order = { kind: 'market', name: 'Spring market, hall', buyer: null, due, wants: [{ formula: 'meadow', bars: 12, label: null }] };
    await put('order', 'spring', { ...order, state: 'open', note: '' });

    const { outlook, names } = await get<OrdersPage>('/orders');
    expect(outlook.batches.map(({ formula: of, order: by, late }) => [of, by, late])).toEqual([
      ['meadow', 'spring', 0],
      ['meadow', 'spring', 0],
    ]);
    // One mould: the second batch waits until the first is out of it.
    expect(new Set(outlook.batches.map(({ pour }) => pour)).size).toBe(2);
    expect(outlook.batches.every(({ ready }) => ready.by <= due)).toBe(true);
    expect(outlook.buying).toContainEqual(expect.objectContaining({ thing: 'band', short: 16, packs: 1 }));
    expect(names).toMatchObject({ meadow: 'Meadow', band: 'Paper band', spring: 'Spring market, hall' });

    const calendar = await fetch(at('/orders/calendar.ics'));
    expect(calendar.headers.get('content-type')).toMatch(/^text\/calendar/);
    const text = await calendar.text();
    // In a calendar beside others nothing else would tell it from real work.
    expect(text).toContain('NAME:Practice: Potwatch\r\n');
    expect(text).toContain('SUMMARY:Practice: Pour Meadow\r\n');
    expect(text).toContain(String.raw`SUMMARY:Practice: Spring market\, hall: 12 bars` + '\r\n');
    expect(text.match(/BEGIN:VEVENT/g)).toHaveLength(outlook.agenda.length);
  });

  it('a day or a number that is none is refused beside its field, and what stood stays', async () => {
    const wants = [{ formula: 'meadow', bars: 1, label: 'y' }];
    const order = { id: 'spring', kind: 'market', name: 'x', buyer: null, due: '2027-02-30', wants, state: 'open', note: '' };
    const answer = await send<{ fields: readonly { path: string }[] }>('/shelf/order/spring', { expected: 1, note: '', document: order });
    expect(answer.status).toBe(422);
    expect(answer.body.fields.map(({ path }) => path)).toEqual(['due', 'wants.0.label']);
    expect((await get<OrdersPage>('/orders')).orders).toMatchObject([{ name: 'Spring market, hall' }]);
  });

  it('tell what a bar cost, by what was weighed of each lot and paid for it', async () => {
    const lot = { mark: 'x', certificate: null, files: [], received: { day: '2026-01-02', amount: 1_000_000 } };
    await put('lot', 'lot-0', { ...lot, material: 'olive', paid: '10' });
    await put('lot', 'lot-1', { ...lot, material: 'coconut' });
    // What is past its day is weighed from by nobody: it covers nothing that is to be poured.
    await put('lot', 'lot-8', { ...lot, material: 'olive', bestBefore: '2026-02-01' });
    expect((await get<OrdersPage>('/orders')).onHand['olive']).toBeLessThan(1_000_000);
    await post('/bars', { intent: intent(), batch: 'b1', moulds: [1], mould: { id: null, name: 'Loaf', cavities: 1 }, batter: 300_000 });
    const id = encodeURIComponent((await get<BarsList>('/bars')).bars[0]?.id ?? '');
    expect((await get<CostPage>(`/orders/cost?bars=${id}`)).cost).toBeNull();
    const want = (said: object): Promise<void> => post(`/bars/lot?id=${id}`, { intent: intent(), expectedVersion: null, want: said });
    await want({ kind: 'note-unmould', state: 'out', note: '', room: null });
    await want({
      kind: 'cut',
      cutter: { id: null, name: 'wire', kind: 'fixed' },
      count: 10,
      ends: 0,
      testers: 0,
      thickness: null,
      log: null,
      mass: null,
    });
    const used = (await get<{ used: Record<string, number> }>('/lots')).used;
    const { cost } = await get<CostPage>(`/orders/cost?bars=${id}`);
    // 10 money for a kilogram, ten bars; a band at 6 for a hundred.
    expect(cost?.of[0]?.each).toBeCloseTo((((used['lot-0'] ?? 0) / 1000) * (10 / 1000)) / 10, 12);
    expect(cost?.of[0]?.name).toBe('Olive oil');
    expect(cost?.packaging).toBeCloseTo(0.06, 12);
    // What was typed of no stated lot is not free: oil 2.
    expect(cost?.unknown).toEqual(['Coconut oil', 'oil-2']);
    expect((await fetch(at('/orders/cost?bars=nothing'))).status).toBe(404);
  });

  it('are filled by sales that name them, by a market day, and less what is given back; a recall counts the same', async () => {
    const [row] = (await get<BarsList>('/bars')).bars;
    const id = encodeURIComponent(row?.id ?? '');
    const asks = (bars: number) => ({
      buyer: null,
      due: '2030-05-01',
      wants: [{ formula: row?.formula.id, bars, label: null }],
      state: 'open',
      note: '',
    });
    await put('order', 'mill', { ...asks(6), kind: 'order', name: 'The mill' });
    await put('order', 'fair', { ...asks(5), kind: 'market', name: 'The fair' });
    const want = (said: object): Promise<void> => post(`/bars/lot?id=${id}`, { intent: intent(), expectedVersion: null, want: said });
    const stands = async () => (await get<OrdersPage>('/orders')).outlook.stands;
    const sold = { kind: 'sell', to: null, from: 'shelf', note: '' };
    await want({ ...sold, count: 4, at: 'mill' });
    expect(await stands()).toMatchObject({
      mill: { asked: 6, over: 4, open: 2, handed: [{ mark: row?.mark, over: 4 }] },
      fair: { open: 5 },
    });
    const unknown = { intent: intent(), expectedVersion: null, want: { ...sold, count: 1, at: 'nowhere' } };
    expect((await send(`/bars/lot?id=${id}`, unknown)).status).toBe(404);

    await want({ kind: 'take', count: 4, at: 'fair', note: '' });
    expect((await stands())['fair']).toMatchObject({ over: 0, away: 4, open: 1 });
    expect((await get<OrdersPage>('/orders')).outlook.agenda.filter(({ task }) => task.kind === 'due')).toMatchObject([
      { task: { order: 'Spring market, hall', bars: 12 } },
      { task: { order: 'The fair', bars: 1 } },
      { task: { order: 'The mill', bars: 2 } },
    ]);
    await want({ kind: 'count-market', took: 4, home: 1, gave: 1, at: 'fair', note: '' });
    expect((await stands())['fair']).toMatchObject({ over: 3, away: 0, open: 2 });
    await want({ kind: 'bring-home', count: 1, from: 'buyer', to: null, at: 'mill', note: 'soft', into: 'aside' });
    await want({ kind: 'bring-home', count: 1, from: 'buyer', to: null, at: 'fair', note: '', into: 'spoiled' });

    const page = await get<BarsPage>(`/bars/lot?id=${id}`);
    expect(page.state.counts).toEqual({ made: 10, shelf: 3, away: 0, aside: 1, sold: 4, given: 1, spoiled: 1 });
    expect(page).toMatchObject({ orders: { mill: 'The mill', fair: 'The fair' } });
    expect((await get<BarsList>('/bars/open')).bars[0]).toEqual(page.row);
    expect(await stands()).toMatchObject({ mill: { over: 3, open: 3 }, fair: { over: 2, open: 3 } });
    const [touched] = (await get<FollowLot>('/follow/lot?id=lot-0')).batches.flatMap(({ bars }) => bars);
    expect(touched).toMatchObject({ made: 10, shelf: 3, aside: 1, away: 0 });
    expect(touched?.out.map(({ kind, count, at: where }) => [kind, count, where])).toEqual([
      ['sold', 3, 'The mill'],
      ['given', 1, 'The fair'],
      ['sold', 1, 'The fair'],
    ]);
  });

  it('ask for what a preparation is made of, which nobody sells', async () => {
    const parts = [['olive', '70'], ['coconut', '30']].map(([material, percent]) => ({ material, lot: null, percent })); // prettier-ignore
    await put('preparation', 'soft', { name: 'Soft oils', parts, note: null });
    await put('lot', 'lot-soda-06', { ...WORKSHOP.lots.find(({ id }) => id === 'lot-soda-06') });
    const entries = [entry('oils', 'fat', 'soft', mass('1000')), WATER, SODA];
    await put('formula', 'brook', formula({ id: 'brook', name: 'Brook', entries, moulds: [{ mould: 'loaf', count: 1, fill: '95' }] }));
    const { today } = await get<OrdersPage>('/orders');
    const wants = [{ formula: 'brook', bars: 1, label: null }];
    await put('order', 'brook', { kind: 'order', name: 'Brook', buyer: null, due: addDays(today, 150), wants, state: 'open', note: '' });
    const { outlook } = await get<OrdersPage>('/orders');
    const things = new Set(outlook.buying.map(({ thing }) => thing));
    expect([things.has('olive'), things.has('soft')]).toEqual([true, false]);
  });

  it('promise bars of which nothing can be forecast once a rule of days alone says so', async () => {
    expect((await get<OrdersPage>('/orders')).outlook.supplies).toEqual([]);
    await put('cure', 'maker', { ...USUAL_CURE, days: 0, perWeek: null });
    expect((await get<OrdersPage>('/orders')).outlook.supplies).toMatchObject([{ bars: 3 }]);
  });
});
