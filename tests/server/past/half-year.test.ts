import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { BarsEntry } from '#lib/work/bars/index';
import type { Entry } from '#lib/work/batch/index';
import { standOf } from '#lib/work/orders/delivered';
import type { Lot } from '#lib/work/formula/index';
import type { Goods, Order } from '#lib/work/orders/documents';
import { drawnBy, wrapOnHand } from '#lib/work/orders/wraps';
import { documentsOf } from '#lib/work/shelf/context';
import { layOutPast } from '#server/past/half-year';
import { openStore } from '#server/store/open';
import type { Store } from '#server/store/store';
import { storeRig } from '#tests/support/store-rig';
import { monotonic, wall } from '#lib/units/time';

const NOW = Date.UTC(2026, 10, 28, 9);
const CLOCK = { now: () => monotonic(0), wall: () => wall(NOW), offsetMinutes: () => 60 };
const BATCHES = 8;

describe('the invented half-year of the practice bench', () => {
  const rig = storeRig();
  let store: Store;
  let entries: readonly (Entry | BarsEntry)[];
  beforeAll(async () => {
    store = await openStore({ ...rig.options, clock: CLOCK });
    expect(await layOutPast(store, CLOCK, 41, BATCHES)).toBe(BATCHES);
    entries = (await store.bench.lines(0, 100_000)).map(({ text }) => JSON.parse(text) as Entry | BarsEntry);
  });
  afterAll(async () => {
    await store.close();
    rig.remove();
  });

  it('is practice in every entry, lies before now, and says who bought by an id alone', () => {
    expect(entries.length).toBeGreaterThan(400);
    expect(new Set(entries.map(({ realm }) => realm))).toEqual(new Set(['practice']));
    expect(Math.max(...entries.map((entry) => entry.wall))).toBeLessThanOrEqual(NOW);
    const sold = entries.filter(({ kind }) => kind === 'bars-sold');
    expect(sold.length).toBeGreaterThan(3);
    const buyers = store.settings.people().filter(({ role }) => role === 'buyer');
    const text = JSON.stringify(entries);
    for (const { id, name } of buyers) {
      expect(sold.some((entry) => JSON.stringify(entry).includes(id))).toBe(true);
      expect(text).not.toContain(name);
    }
    // Whose hand eased off is whoever the entry says poured.
    const eased = entries.flatMap((entry) => (entry.kind === 'weight-accepted' && entry.body.eased !== undefined ? [entry] : []));
    expect(eased.length).toBeGreaterThan(20);
    for (const { by, body } of eased) expect(body.eased?.hand).toBe(by);
  });

  it('happened in working hours, one thing after the other', () => {
    const at = entries.map(({ wall, offsetMin }) => new Date(wall + offsetMin * 60_000).toISOString().slice(11, 16));
    expect(at.toSorted().at(0)! >= '07:30').toBe(true);
    expect(at.toSorted().at(-1)! < '19:30').toBe(true);
    const last = new Map<string, number>();
    for (const { batch, wall } of entries) {
      expect(wall).toBeGreaterThanOrEqual(last.get(batch) ?? 0);
      last.set(batch, wall);
    }
  });

  it('has closed batches whose moulds became bars, weighed, labelled and counted', async () => {
    const { batches } = await store.batches.list({ before: null, limit: 50 });
    expect(batches).toHaveLength(BATCHES);
    expect(new Set(batches.map(({ status }) => status))).toEqual(new Set(['closed']));
    const { bars } = await store.bars.list({ before: null, limit: 100 });
    expect(bars.length).toBeGreaterThanOrEqual(BATCHES - 1);
    for (const { counts } of bars) {
      expect(counts.shelf + counts.away + counts.sold + counts.given + counts.spoiled).toBe(counts.made);
    }
    // Bars get lighter, and never heavier, from week to week.
    for (const { weighings } of bars) {
      const weights = weighings.map(({ sum, bars: of }) => sum / of);
      expect(weights).toEqual(weights.toSorted((a, b) => b - a));
    }
  });

  it('has scents whose certificates name allergens, so that labels do', () => {
    const stated = documentsOf<Lot>(store.shelf.now(), 'lot').filter(({ certificate }) => certificate?.allergens !== undefined);
    expect(new Set(stated.map(({ material }) => material))).toEqual(new Set(['alder-wood-scent']));
  });

  it('has photographs of newer bars on the days of the schedule, kept as a camera’s are, and other from day to day', async () => {
    const photos = entries.flatMap((entry) => (entry.kind === 'bars-photo' ? [entry] : []));
    expect(photos.length).toBeGreaterThan(4);
    for (const { sha256 } of photos.map(({ body }) => body)) {
      expect(store.shelf.file(sha256)).toMatchObject({ type: 'image/jpeg' });
      const bytes = await store.blobs.get(sha256);
      expect(bytes?.[0]).toBe(0xff);
    }
    for (const lot of new Set(photos.map(({ batch }) => batch))) {
      const own = photos.filter(({ batch }) => batch === lot);
      expect(new Set(own.map(({ body }) => body.sha256)).size).toBe(own.length);
      expect(NOW - Math.min(...own.map(({ wall: at }) => at))).toBeLessThan(46 * 86_400_000);
    }
  });

  it('was never short of a lot: whole packs came before the first weight', async () => {
    const used = await store.lots.used();
    const lots = [...store.shelf.now().lot.values()].map(
      ({ versions }) => versions.at(-1)?.document as { id: string; received: { amount: number } },
    );
    expect(lots.map(({ id }) => id).toSorted()).toEqual([...used.keys()].toSorted());
    for (const { id, received } of lots) expect(received.amount).toBeGreaterThanOrEqual(used.get(id) ?? 0);
  });

  it('wrapped its bars before the first was sold, and has wraps left', async () => {
    const rows = await store.bars.wrapped();
    expect(rows.length).toBeGreaterThan(0);
    const { bars } = await store.bars.list({ before: null, limit: 100 });
    for (const { wrapped, counts } of bars) if (counts.sold + counts.given > 0) expect(wrapped?.bars).toBe(counts.made);
    const goods = documentsOf<Goods>(store.shelf.now(), 'goods').filter(({ kind }) => kind === 'wrap');
    expect(goods.flatMap((one) => wrapOnHand(one, drawnBy(rows)).map(({ left }) => left))).toEqual([0, 131]);
  });

  it('has orders that its sales filled, and others that are still open', async () => {
    const orders = documentsOf<Order>(store.shelf.now(), 'order');
    const rows = await store.bars.serving();
    const filled = orders.filter(({ state }) => state === 'done').map((order) => standOf(order, rows));
    expect(filled.length).toBeGreaterThan(0);
    for (const { asked, over, open } of filled) expect([over, open]).toEqual([asked, 0]);
    expect(orders.filter(({ state }) => state === 'open')).toHaveLength(2);
  });

  it('is sound to the last line, and is laid out once', async () => {
    expect(await store.verify()).toMatchObject({ ok: true });
    const { bars: before } = await store.bars.list({ before: null, limit: 100 });
    await store.rebuild();
    expect((await store.bars.list({ before: null, limit: 100 })).bars).toEqual(before);
    expect(await layOutPast(store, CLOCK, 41, BATCHES)).toBe(0);
  });
});
