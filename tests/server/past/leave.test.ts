import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { BarsList, BarsWaiting } from '#lib/protocol/bars';
import type { BatchList, InstrumentsPage, PlanList } from '#lib/protocol/http';
import type { LotsUsed } from '#lib/protocol/lots';
import type { OrdersPage } from '#lib/protocol/orders';
import type { PeoplePage } from '#lib/protocol/people';
import type { ShelfList } from '#lib/protocol/shelf';
import { NO_TRADE } from '#lib/work/orders/documents';
import { NOUNS } from '#lib/work/shelf/shelf';
import type { Noun } from '#lib/work/shelf/shelf';
import { systemClock } from '#server/bench/system';
import { layOutPast } from '#server/past/half-year';
import type { RunningServer } from '#server/server';
import { openStore } from '#server/store/open';
import { optionsFor, serverHere } from '#tests/support/server-rig';
import { storeRig } from '#tests/support/store-rig';

const BATCHES = 3;

describe('leaving practice with its invented half-year', () => {
  const rig = storeRig();
  let server: RunningServer;
  beforeAll(async () => {
    const store = await openStore({ ...rig.options, realm: 'practice', clock: systemClock });
    await layOutPast(store, systemClock, 41, BATCHES);
    await store.close();
    server = await serverHere(optionsFor(rig.dir, { practice: false }));
  });
  afterAll(async () => {
    await server.stop();
    rig.remove();
  });
  const at = (path: string): string => `http://127.0.0.1:${server.port}/api${path}`;
  const get = async <T>(path: string): Promise<T> => (await (await fetch(at(path))).json()) as T;
  const leave = (along: object) =>
    fetch(at('/instruments/leave-practice'), {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ leave: 'practice', ...along }),
    });
  const shelved = async () => {
    const lists = await Promise.all(NOUNS.map((noun) => get<ShelfList>(`/shelf/${noun}`)));
    return Object.fromEntries(NOUNS.map((noun, n) => [noun, lists[n]?.items.map(({ id }) => id) ?? []])) as Record<Noun, string[]>;
  };

  it('opens the real workshop, which is empty but for what was chosen and what that names', async () => {
    const before = await shelved();
    expect(before.lot.length).toBeGreaterThan(0);
    expect(before.order).toContain('spring-market');
    expect((await get<BarsList>('/bars')).bars.length).toBeGreaterThan(0);
    const [cutter = ''] = before.cutter;
    expect((await leave({ formulas: 'all' })).status).toBe(400);
    expect((await get<InstrumentsPage>('/instruments')).realm).toBe('practice');

    expect((await leave({ formulas: ['slate', 'nothing-of-that-kind'], cutters: [cutter] })).status).toBe(200);
    expect((await get<InstrumentsPage>('/instruments')).realm).toBe('real');
    const [slate] = (await get<ShelfList>('/shelf/formula')).items;
    expect(slate).toMatchObject({ id: 'slate', version: 1, document: { version: 1 } });
    const moulds = ((slate?.document ?? { moulds: [] }) as unknown as { moulds: readonly { mould: string }[] }).moulds.map(
      ({ mould }) => mould,
    );
    expect(moulds.length).toBeGreaterThan(0);
    const { formula, mould, material, preparation, cutter: cutters, ...rest } = await shelved();
    expect([formula, mould.toSorted(), cutters]).toEqual([['slate'], [...new Set(moulds)].toSorted(), [cutter]]);
    // Materials of one's own that it names, and no others.
    const text = JSON.stringify(slate?.document);
    expect([...material, ...preparation].every((id) => text.includes(`"${id}"`))).toBe(true);
    expect(material).toEqual(before.material.filter((id) => text.includes(`"${id}"`)));
    expect(Object.values(rest).flat()).toEqual([]);
    expect(text).not.toMatch(/"lot":"/);

    // Nothing that was invented happened here.
    expect(await get<BatchList>('/batches')).toMatchObject({ batches: [] });
    expect(await get<BarsList>('/bars')).toMatchObject({ bars: [] });
    expect(await get<BarsWaiting>('/bars/waiting')).toMatchObject({ batches: [] });
    expect((await get<LotsUsed>('/lots')).used).toEqual({});
    expect((await get<PlanList>('/plans')).plans).toEqual([]);
    expect(await get<OrdersPage>('/orders')).toMatchObject({ orders: [], goods: [], trade: NO_TRADE, onHand: {}, outlook: { agenda: [] } });
    expect((await get<PeoplePage>('/people')).people.filter(({ role }) => role === 'buyer')).toEqual([]);
    expect((await leave({})).status).toBe(404);
  });

  it('leaves what was invented in its own file', async () => {
    await server.stop();
    const store = await openStore({ ...rig.options, realm: 'practice' });
    expect((await store.batches.list({ before: null, limit: 50 })).batches).toHaveLength(BATCHES);
    await store.close();
    server = await serverHere(optionsFor(rig.dir, { practice: false }));
  });
});
