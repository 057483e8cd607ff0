import Database from 'better-sqlite3';
import fc from '#tests/support/property';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { BatchListRow } from '#lib/protocol/http';
import { labelled } from '#lib/record/journal';
import type { Append } from '#lib/record/journal';
import { as } from '#lib/units/id';
import type { BatchId } from '#lib/units/id';
import { grams } from '#lib/units/mass';
import type { BatchState, Entry } from '#lib/work/batch/index';
import { fold } from '#lib/work/batch/evolve/index';
import { review } from '#lib/work/batch/review';
import { summaryOf } from '#lib/work/batch/summary';
import type { SqliteJournal } from '#server/store/journal';
import { derivedBatches } from '#server/store/batches';
import { openStore } from '#server/store/open';
import type { Store } from '#server/store/store';
import { appendOf, entryOf } from '#tests/support/appends';
import { BatchRig, planOf } from '#tests/support/batch';
import { sampleBatch } from '#tests/support/sample-batch';
import { storeRig } from '#tests/support/store-rig';
import type { Rig } from '#tests/support/store-rig';

const listed = async (store: Store): Promise<readonly BatchListRow[]> => (await store.batches.list({ before: null, limit: 200 })).batches;

const broken = (): never => {
  throw new Error('after the rows were made');
};

/** A batch of which nothing is known but its row. */
const ALONE = { state: null, stuck: false, found: null };

describe('the list of batches', () => {
  let rig: Rig;
  let store: Store;
  beforeEach(async () => {
    rig = storeRig();
    store = await openStore(rig.options);
  });
  afterEach(async () => {
    await store.close();
    rig.remove();
  });
  const record = async (appends: readonly Append[]): Promise<void> => {
    for (const append of appends) await store.bench.append(append);
  };

  it('shows a batch as its entries say', async () => {
    await record(sampleBatch({ batch: 'a', lines: 3, struckLine: 1 }));
    expect(await store.batches.get(as('a'))).toEqual({
      id: 'a',
      mark: 'a mark',
      realm: 'practice',
      name: 'Hearth bar',
      status: 'closed',
      startedWall: 1_760_000_001_000,
      endedWall: expect.any(Number),
      lines: { closed: 3, of: 3 },
      actual: 100_200 + 101_200 + 102_200,
      planned: 100_000 + 101_000 + 102_000,
      overPours: 0,
      overrides: 0,
      byHand: 1,
      // What was typed by hand says no lot.
      lots: [0, 2].map((n) => ({ lot: `lot-${n}`, mark: `26-${n}`, mass: 100_200 + 1000 * n })),
      unlotted: [{ material: 'oil-1', mass: 101_200 }],
    });
    expect(await store.batches.get(as('none'))).toBeNull();
  });

  it('plans as the batch began, whatever targets moved since, as its review does', async () => {
    const rig = new BatchRig();
    const plan = planOf('alder-and-oat');
    rig.must('start', { mark: '26-11', plan, realm: 'practice', bench: 'bench 1' });
    rig.weighAll('olive');
    rig.must('replan', { lines: [{ ...rig.line('olive').plan, target: grams(404) }], reason: 'coconut 6 g over' });
    await record([appendOf(rig.entries.map(labelled))]);
    const row = await store.batches.get(as('batch-1'));
    expect(row?.planned).toBe(plan.lines.reduce((sum, { target }) => sum + target, 0));
    expect(row).toEqual(review(rig.entries).summary);
  });

  it('follows every append: under way, then closed', async () => {
    const appends = sampleBatch({ batch: 'a', lines: 2 });
    await record(appends.slice(0, 3));
    expect(await store.batches.get(as('a'))).toMatchObject({
      status: 'weighing',
      lines: { closed: 1, of: 2 },
      actual: 100_200,
      endedWall: null,
    });
    await record(appends.slice(3));
    expect(await store.batches.get(as('a'))).toMatchObject({ status: 'closed', lines: { closed: 2, of: 2 } });
  });

  it('pages from the newest, by the order of starting, and ends', async () => {
    const ids = ['one', 'two', 'three', 'four', 'five'];
    for (const id of ids) await record(sampleBatch({ batch: id, lines: 1, stripBytes: 40 }).slice(0, 2));
    await record(sampleBatch({ batch: 'one', lines: 1, stripBytes: 40 }).slice(2));
    const first = await store.batches.list({ before: null, limit: 2 });
    expect(first).toMatchObject({ batches: [{ id: 'five' }, { id: 'four' }], next: 'four' });
    const second = await store.batches.list({ before: first.next, limit: 2 });
    expect(second).toMatchObject({ batches: [{ id: 'three' }, { id: 'two' }], next: 'two' });
    expect(await store.batches.list({ before: second.next, limit: 2 })).toMatchObject({ batches: [{ id: 'one' }], next: null });
    expect(await store.batches.list({ before: 'unknown', limit: 2 })).toEqual({ batches: [], next: null });
  });

  it('pages through those of one status however many others are newer, from the file and from lines alone', async () => {
    const ids = ['one', 'two', 'three', 'four', 'five', 'six'];
    for (const id of ids) {
      const whole = sampleBatch({ batch: id, lines: 1, stripBytes: 40 });
      await record(['one', 'two', 'five'].includes(id) ? whole.slice(0, 2) : whole);
    }
    const { batches } = await store.batches.list({ before: null, limit: 200 });
    const rows = new Map(
      batches.map((row, at) => [as<BatchId>(row.id), { ...ALONE, startSeq: batches.length - at, row: JSON.stringify(row) }]),
    );
    for (const list of [store.batches, derivedBatches(rows)]) {
      const first = await list.list({ before: null, limit: 2, status: 'weighing' });
      expect(first).toMatchObject({ batches: [{ id: 'five' }, { id: 'two' }], next: 'two' });
      expect(await list.list({ before: first.next, limit: 2, status: 'weighing' })).toMatchObject({ batches: [{ id: 'one' }], next: null });
      expect(await list.list({ before: null, limit: 2, status: 'parked' })).toEqual({ batches: [], next: null });
    }
  });

  it('keeps its row when an entry of an unknown kind follows, now and replayed', async () => {
    await record(sampleBatch({ batch: 'a', lines: 2 }).slice(0, 3));
    const before = await store.batches.get(as('a'));
    const { value } = entryOf('a', 6);
    await store.bench.append(appendOf([{ ...entryOf('a', 6), kind: 'of-later', value: { ...(value as object), kind: 'of-later' } }]));
    expect(await store.batches.get(as('a'))).toEqual(before);
    await store.rebuild();
    expect(await store.batches.get(as('a'))).toEqual(before);
  });

  it('carries a batch on after a restart, from its lines', async () => {
    const appends = sampleBatch({ batch: 'a', lines: 3 });
    await record(appends.slice(0, 4));
    await store.close();
    store = await openStore(rig.options);
    await record(appends.slice(4));
    expect(await store.batches.get(as('a'))).toMatchObject({ status: 'closed', lines: { closed: 3, of: 3 } });
  });

  it('is replayed at the next start when it is not what follows from the record, and the record stays writable', async () => {
    await record(sampleBatch({ batch: 'a', lines: 2 }));
    const right = await listed(store);
    await store.close();
    const db = new Database(rig.file);
    db.prepare(`update batch_rows set row = replace(row, '"closed":2', '"closed":1')`).run();
    db.close();
    store = await openStore(rig.options);
    expect(await listed(store)).toEqual(right);
    expect(store.health().ok).toBe(true);
    expect(rig.log.said).toContain('warn the list of batches was not what follows from the record, and was replayed');
  });

  it('leaves no row of an append that was undone', async () => {
    await record(sampleBatch({ batch: 'a', lines: 2 }).slice(0, 2));
    const [, , accept] = sampleBatch({ batch: 'a', lines: 2 });
    const before = await store.batches.get(as('a'));
    expect(() => (store.bench as SqliteJournal).appendWith(accept as Append, broken)).toThrow('after the rows');
    expect(await store.batches.get(as('a'))).toEqual(before);
    await record([accept as Append]);
    expect(await store.batches.get(as('a'))).toMatchObject({ actual: 100_200 });
  });
});

describe('rebuild', () => {
  it('replays to the very same list, whatever was recorded and however often the program started', async () => {
    const batch = fc.record({
      lines: fc.integer({ min: 1, max: 3 }),
      struckLine: fc.option(fc.nat(2)),
      close: fc.boolean(),
      until: fc.integer({ min: 1, max: 12 }),
    });
    await fc.assert(
      fc.asyncProperty(fc.array(batch, { minLength: 1, maxLength: 4 }), fc.array(fc.nat(), { maxLength: 3 }), async (batches, restarts) => {
        const rig = storeRig();
        let store = await openStore(rig.options);
        const queues = batches.map(({ until, ...one }, i) => sampleBatch({ ...one, batch: `b${i}`, stripBytes: 30 }).slice(0, until));
        const entries = new Map<string, Entry[]>();
        for (let turn = 0; queues.some((queue) => queue.length > 0); turn += 1) {
          if (restarts.some((at) => at % 9 === turn)) {
            await store.close();
            store = await openStore(rig.options);
          }
          // The batches take turns, as parked ones do.
          for (const queue of queues) {
            const append = queue.shift();
            if (append === undefined) continue;
            await store.bench.append(append);
            const key = append.batch ?? '';
            entries.set(key, [...(entries.get(key) ?? []), ...append.entries.map(({ value }) => value as unknown as Entry)]);
          }
        }
        const kept = await listed(store);
        const folded = [...entries.values()].toReversed().map((all) => summaryOf(fold(all) as BatchState));
        expect(kept).toEqual(folded);
        await store.rebuild();
        expect(await listed(store)).toEqual(kept);
        expect(rig.log.said).toEqual([]);
        await store.close();
        rig.remove();
      }),
      { numRuns: 25 },
    );
  });
});
