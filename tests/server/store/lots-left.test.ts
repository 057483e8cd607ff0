import { afterEach, describe, expect, it } from 'vitest';
import { as } from '#lib/units/id';
import type { PersonId } from '#lib/units/id';
import { leftOfLots } from '#server/bench/stock';
import { openStore } from '#server/store/open';
import { sampleBatch } from '#tests/support/sample-batch';
import { storeRig } from '#tests/support/store-rig';

const rig = storeRig();
afterEach(() => rig.remove());

const lot = (n: number, more: object) => ({
  id: `lot-${n}`,
  mark: `26-${n}`,
  material: `oil-${n}`,
  certificate: null,
  files: [],
  ...more,
});

describe('what the stores have left of a lot', () => {
  it('is what came in, put right by hand, less what batches took; where nobody said what came in, or less than nothing is left, it says nothing', async () => {
    const store = await openStore(rig.options);
    for (const append of sampleBatch({ batch: 'b1', lines: 3, stripBytes: 64 })) await store.bench.append(append);
    const used = await store.lots.used();
    const put = (n: number, more: object) =>
      store.shelf.put({ noun: 'lot', id: `lot-${n}`, document: lot(n, more), expected: 0, note: '' }, as<PersonId>('maker'));
    await put(0, { received: { day: '2026-01-30', amount: 5_000_000 } });
    await put(1, {});
    await put(2, { received: { day: '2026-01-30', amount: 1 } });
    expect(await leftOfLots(store)).toEqual(new Map([['lot-0', 5_000_000 - (used.get('lot-0') ?? 0)]]));
    expect(used.get('lot-0') ?? 0).toBeGreaterThan(0);
    await store.close();
  });
});
