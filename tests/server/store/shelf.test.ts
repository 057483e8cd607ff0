import { createHash } from 'node:crypto';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { NotCanonical } from '#lib/record/canonical';
import { as } from '#lib/units/id';
import type { PersonId } from '#lib/units/id';
import { newest, standing, versionOf } from '#lib/work/shelf/shelf';
import { openStore } from '#server/store/open';
import type { Store } from '#server/store/store';
import { storeRig } from '#tests/support/store-rig';
import type { Rig } from '#tests/support/store-rig';

const BY = as<PersonId>('person-1');

describe('the shelf', () => {
  let rig: Rig;
  let store: Store;
  const restart = async (): Promise<void> => {
    await store.close();
    store = await openStore(rig.options);
  };
  const put = (id: string, expected: number, document: Parameters<Store['shelf']['put']>[0]['document'], note = '') =>
    store.shelf.put({ noun: 'mould', id, expected, document, note }, BY);
  beforeEach(async () => {
    rig = storeRig();
    store = await openStore(rig.options);
  });
  afterEach(async () => {
    await store.close();
    rig.remove();
  });

  it('keeps every version of a document, over a restart, and a later one changes no earlier one', async () => {
    expect(await put('loaf', 0, { name: 'long loaf', ml: 1200 })).toEqual({ ok: true, version: 1 });
    expect(await put('loaf', 1, { name: 'long loaf', ml: 1180 }, 'measured with water')).toEqual({ ok: true, version: 2 });
    await put('tray', 0, { name: 'tray' });
    const before = store.shelf.now();
    await restart();
    expect(store.shelf.now()).toEqual(before);
    expect(newest(before, 'mould', 'loaf')).toMatchObject({ version: 2, document: { ml: 1180 }, note: 'measured with water', by: BY });
    expect(versionOf(before, 'mould', 'loaf', 1)).toMatchObject({ document: { ml: 1200 } });
    expect(standing(before, 'mould').map(({ id }) => id)).toEqual(['loaf', 'tray']);
  });

  it('refuses a version put on top of one the person has not seen, and writes nothing', async () => {
    await put('loaf', 0, { ml: 1200 });
    await put('loaf', 1, { ml: 1180 });
    const seq = store.workshop.seq();
    expect(await put('loaf', 1, { ml: 5 })).toEqual({ ok: false, stale: 2 });
    expect(await put('new', 3, { ml: 5 })).toEqual({ ok: false, stale: 0 });
    expect(store.workshop.seq()).toBe(seq);
    expect(newest(store.shelf.now(), 'mould', 'loaf')).toMatchObject({ version: 2 });
  });

  it('two at once: one is put, the other is told', async () => {
    const both = await Promise.all([put('loaf', 0, { ml: 1 }), put('loaf', 0, { ml: 2 })]);
    expect(both).toEqual([
      { ok: true, version: 1 },
      { ok: false, stale: 1 },
    ]);
  });

  it('puts a document away without losing its versions, and takes it back by putting it again', async () => {
    await put('loaf', 0, { ml: 1200 });
    await put('loaf', 1, null, 'broken');
    expect(newest(store.shelf.now(), 'mould', 'loaf')).toBeNull();
    expect(standing(store.shelf.now(), 'mould')).toEqual([]);
    expect(versionOf(store.shelf.now(), 'mould', 'loaf', 1)).toMatchObject({ document: { ml: 1200 } });
    expect(await put('loaf', 2, { ml: 1200 })).toEqual({ ok: true, version: 3 });
    expect(newest(store.shelf.now(), 'mould', 'loaf')).toMatchObject({ version: 3 });
  });

  it('takes no fraction into a hashed line, and says where it stands', async () => {
    await expect(put('loaf', 0, { sides: { length: 12.5 } })).rejects.toThrow(NotCanonical);
    await expect(put('loaf', 0, { sides: { length: 12.5 } })).rejects.toThrow('body.document.sides.length');
    expect(store.workshop.seq()).toBe(0);
    expect(newest(store.shelf.now(), 'mould', 'loaf')).toBeNull();
  });

  it('keeps a file by its hash, once, and gives the same bytes back after a restart', async () => {
    const bytes = new TextEncoder().encode('certificate of analysis');
    const sha256 = createHash('sha256').update(bytes).digest('hex');
    const kept = await store.shelf.keepFile({ name: 'palm.pdf', type: 'application/pdf', bytes }, BY);
    expect(kept).toEqual({ sha256, name: 'palm.pdf', type: 'application/pdf', bytes: bytes.length });
    const seq = store.workshop.seq();
    expect(await store.shelf.keepFile({ name: 'again.pdf', type: 'application/pdf', bytes }, BY)).toEqual(kept);
    expect(store.workshop.seq()).toBe(seq);
    await restart();
    expect(store.shelf.file(sha256)).toEqual(kept);
    expect(await store.blobs.get(sha256)).toEqual(bytes);
    expect(store.shelf.file('0'.repeat(64))).toBeNull();
    expect((await store.verify()).ok).toBe(true);
  });
});
