import { beforeAll, describe, expect, it } from 'vitest';
import type { BarsAnswer, BarsPage } from '#lib/protocol/bars';
import type { FollowBars, FollowWrap, LotsUsed } from '#lib/protocol/lots';
import type { CostPage, OrdersPage, WrapsPage } from '#lib/protocol/orders';
import { piecesOnHand, wrapOnHand } from '#lib/work/orders/wraps';
import { servedRecord } from '#tests/support/served-record';

const BAND = { id: 'band', kind: 'wrap', name: 'Paper band', pack: '100', price: '6', days: 3, perBar: '1', onHand: null };
const LOTS = [
  { mark: 'PB 1', onHand: 4, drawn: 0, price: null },
  { mark: 'PB 2', onHand: 50, drawn: 0, price: '10' },
];
const CUT = { kind: 'cut', cutter: { id: null, name: 'wire', kind: 'fixed' }, count: 10, ends: 0, testers: 0, thickness: null };

describe('wrapping over HTTP', () => {
  const { at, get, post, intent } = servedRecord([{ batch: 'w', lines: 2 }]);
  const lot = `/bars/lot?id=${encodeURIComponent('bars:w/1')}`;
  const want = (said: object) => post<BarsAnswer>(lot, { intent: intent(), expectedVersion: null, want: said });
  const wrap = (bars: number, used: readonly object[]) => want({ kind: 'wrap', bars, used, note: '' });
  const cross = (entry: string | undefined) => want({ kind: 'correct', entry, reason: 'mistyped', note: '' });
  const packaging = async () => (await get<CostPage>(`/orders/cost?bars=${encodeURIComponent('bars:w/1')}`)).cost?.packaging;
  const onHand = async () => {
    const { wraps, drawn } = await get<WrapsPage>('/orders/wraps');
    return wraps.map((goods) => wrapOnHand(goods, drawn).map(({ left }) => left));
  };
  beforeAll(async () => {
    const put = (document: object) => post('/shelf/goods/band', { expected: 0, note: '', document });
    expect((await put({ ...BAND, lots: [...LOTS, LOTS[0]] })).status).toBe(422);
    expect((await put({ ...BAND, lots: LOTS })).status).toBe(200);
    await post('/bars', { intent: intent(), batch: 'w', moulds: [1], mould: { id: null, name: 'Loaf', cavities: 1 }, batter: 900_000 });
    await want({ kind: 'note-unmould', state: 'out', note: '', room: null });
    expect((await want({ ...CUT, log: null, mass: null })).status).toBe(200);
  });

  it('draws the pieces from their lots, and the bar costs what they cost', async () => {
    // Meant to take one of a pack of a hundred at 6.
    expect(await packaging()).toBeCloseTo(0.06, 12);
    const used = [
      { goods: 'band', lot: 'PB 1', pieces: 4 },
      { goods: 'band', lot: 'PB 2', pieces: 5 },
    ];
    expect((await wrap(8, used)).status).toBe(200);
    expect(await onHand()).toEqual([[0, 45]]);
    // Nine pieces, one of them torn, around eight bars: four at 6 and five at 10 for a hundred.
    expect(await packaging()).toBeCloseTo((4 * 0.06 + 5 * 0.1) / 8, 12);
    const { goods, drawn } = await get<OrdersPage>('/orders');
    expect(goods.map((one) => piecesOnHand(one, drawn))).toEqual([45]);
    const { state, row, story } = await get<BarsPage>(lot);
    expect(state.wraps[0]?.used.map(({ name }) => name)).toEqual(['Paper band', 'Paper band']);
    expect(row.wrapped).toEqual({ bars: 8, used });
    expect(story.at(-1)).toMatchObject({ code: 'wrapped', params: { bars: 8 } });
  });

  it('refuses what nobody keeps here and bars that are not there, and takes more than the books say', async () => {
    expect((await wrap(1, [{ goods: 'ribbon', lot: null, pieces: 1 }])).status).toBe(404);
    expect((await wrap(1, [{ goods: 'band', lot: 'PB 9', pieces: 1 }])).status).toBe(404);
    expect(await wrap(3, [{ goods: 'band', lot: 'PB 2', pieces: 3 }])).toMatchObject({
      status: 409,
      body: { refusal: { code: 'no-stock', params: { left: 2, from: 'unwrapped' } } },
    });
    expect((await wrap(0, [{ goods: 'band', lot: 'PB 1', pieces: 3 }])).status).toBe(200);
    expect(await onHand()).toEqual([[-3, 45]]);
  });

  it('leads from a lot of a wrap to the bars it is around and to whom they were sold', async () => {
    expect((await want({ kind: 'sell', count: 3, to: null, at: null, from: 'shelf', note: 'market stall' })).status).toBe(200);
    const { wraps } = await get<LotsUsed>('/lots');
    expect(wraps).toEqual([
      { goods: 'band', name: 'Paper band', lot: 'PB 1' },
      { goods: 'band', name: 'Paper band', lot: 'PB 2' },
    ]);
    const found = await get<FollowWrap>('/follow/wrap?goods=band&lot=PB%201');
    expect(found).toMatchObject({ name: 'Paper band', lot: 'PB 1', pieces: 7, once: [] });
    expect(found.batches).toMatchObject([
      { batch: { id: 'w' }, bars: [{ mark: 'w mark/1', made: 10, shelf: 7, gone: [{ kind: 'sold', count: 3 }], out: [{ count: 3 }] }] },
    ]);
    const back = await get<FollowBars>(`/follow/bars?mark=${encodeURIComponent('w mark/1')}`);
    expect(back.batches[0]?.followed.bars[0]?.wraps.map(({ name, lot: of, pieces }) => [name, of, pieces])).toEqual([
      ['Paper band', 'PB 1', 7],
      ['Paper band', 'PB 2', 5],
    ]);
    // Pieces in no lot were used by nobody, and what was never kept is not there.
    for (const none of ['goods=band', 'goods=band&lot=PB%209', 'goods=ribbon&lot=PB%201'])
      expect((await fetch(at(`/follow/wrap?${none}`))).status).toBe(404);
  });

  it('gives back what is crossed out, once', async () => {
    const { state } = await get<BarsPage>(lot);
    expect((await cross(state.wraps[0]?.entry)).status).toBe(200);
    expect(await onHand()).toEqual([[1, 50]]);
    expect((await cross(state.wraps[0]?.entry)).status).toBe(409);
    expect(await onHand()).toEqual([[1, 50]]);
    // What was written first is told apart: nobody knows which of the two was right.
    const once = await get<FollowWrap>('/follow/wrap?goods=band&lot=PB%202');
    expect(once).toMatchObject({ pieces: 0, batches: [], once: [{ bars: [{ mark: 'w mark/1' }] }] });
    expect((await get<FollowWrap>('/follow/wrap?goods=band&lot=PB%201')).once).toEqual([]);
    // No bar of it stands wrapped: what is meant counts again.
    expect(await packaging()).toBeCloseTo(0.06, 12);
  });
});
