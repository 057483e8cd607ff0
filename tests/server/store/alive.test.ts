import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { JournalReadOnly } from '#lib/record/journal';
import { as } from '#lib/units/id';
import { openStore } from '#server/store/open';
import { StoreProblem } from '#server/store/problem';
import type { Store } from '#server/store/store';
import { appendOf, blobOf, entryOf } from '#tests/support/appends';
import { sampleBatch } from '#tests/support/sample-batch';
import { storeRig } from '#tests/support/store-rig';
import type { Rig } from '#tests/support/store-rig';

const turned = (): Promise<boolean> => new Promise((resolve) => setImmediate(() => resolve(false)));

/** Someone changes the file while the program runs. */
describe('a record changed under a running program', () => {
  let rig: Rig;
  let store: Store;
  const change = (sql: string): void => {
    const db = new Database(rig.file);
    expect(db.prepare(sql).run().changes).toBeGreaterThan(0);
    db.close();
  };
  beforeEach(async () => {
    rig = storeRig();
    store = await openStore(rig.options);
    for (const append of sampleBatch({ batch: 'a', lines: 2, stripBytes: 100 })) await store.bench.append(append);
    await store.bench.append(appendOf([entryOf('b', 1)], { intent: { id: 'i', answer: { ok: true } }, blobs: [blobOf('strip')] }));
  });
  afterEach(async () => {
    await store.close();
    rig.remove();
  });

  const readOnlyNow = async (): Promise<void> => {
    expect(store.health()).toMatchObject({ ok: false });
    await expect(store.bench.append(appendOf([entryOf('c', 1)]))).rejects.toThrow(JournalReadOnly);
    await expect(store.settings.setScreen({ mass: 'lb', temperature: 'F' }, as('p'))).rejects.toThrow(JournalReadOnly);
  };

  it('hands out no changed line, and stops writing', async () => {
    change(`update bench_lines set text = replace(text, '"gross":', '"gross":1') where text like '%vessel-lifted%'`);
    await expect(store.bench.linesOf('a')).rejects.toThrow(StoreProblem);
    await expect(store.bench.lines(0, 100)).rejects.toThrow('was changed after it was written');
    expect((await store.bench.linesOf('b')).length).toBe(1);
    await readOnlyNow();
  });

  it('hands out no changed answer', async () => {
    change(`update answers set answer = '{"ok":false}' where intent = 'i'`);
    await expect(store.bench.answerTo('i')).rejects.toThrow('answer to a screen was changed');
    await readOnlyNow();
  });

  it('hands out no changed bytes', async () => {
    change(`update blobs set bytes = x'00' where sha256 = '${blobOf('strip').sha256}'`);
    await expect(store.blobs.get(blobOf('strip').sha256)).rejects.toThrow('were changed');
    await readOnlyNow();
  });

  it('finds by verify what nobody has read, and says which line', async () => {
    expect(await store.verify()).toMatchObject({ ok: true, file: [] });
    change(`update blobs set bytes = x'00' where sha256 = '${blobOf('strip').sha256}'`);
    change('delete from bench_lines where seq = 3');
    change(`update bench_lines set batch = 'other' where seq = 5`);
    const { ok, bench, workshop, file } = await store.verify();
    expect(ok).toBe(false);
    expect(bench.breaks).toEqual([{ how: 'missing', seq: 3, to: 3 }]);
    expect(workshop.breaks).toEqual([]);
    expect(file).toEqual([expect.stringContaining('stored bytes'), expect.stringContaining('What stands beside line 5')]);
    await readOnlyNow();
  });

  it('goes on taking appends while verify walks', async () => {
    for (let n = 2; n < 700; n += 1) await store.bench.append(appendOf([entryOf('b', n)]));
    let during = 0;
    const verifying = store.verify();
    const ended = verifying.then(() => true);
    do await store.bench.append(appendOf([entryOf('b', 700 + during++)]));
    while (!(await Promise.race([ended, turned()])));
    expect(await verifying).toMatchObject({ ok: true });
    expect(during).toBeGreaterThan(2);
  });

  it('stops at the next append when somebody else wrote a line', async () => {
    change(`insert into bench_lines select seq + 1, 'other', null, null, text, leaf, link from bench_lines order by seq desc limit 1`);
    await expect(store.bench.append(appendOf([entryOf('c', 1)]))).rejects.toThrow();
    expect((await store.bench.linesOf('c')).length).toBe(0);
  });
});
