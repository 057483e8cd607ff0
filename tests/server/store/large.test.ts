import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { finish, inspect, inspectRecent } from '#server/store/check';
import { Checking } from '#server/store/checking';
import { openForReading } from '#server/store/file';
import { Standing } from '#server/store/standing';
import { keptRecord } from '#tests/support/proof-rig';
import { storeRig } from '#tests/support/store-rig';
import type { Rig } from '#tests/support/store-rig';

/** As a record too large to be looked at whole before the start, with limits that three small batches go past. */
describe('a large record', () => {
  let rig: Rig;
  let ends: readonly number[];
  beforeEach(async () => {
    rig = storeRig();
    const kept = await keptRecord(rig.options);
    for (const batch of ['a', 'b', 'c']) await kept.make(batch);
    ends = ['a', 'b', 'c'].map((_, at) => kept.store.proof.covering('bench', at * 14 + 1)?.checkpoint.seq ?? 0);
    await kept.close();
  });
  afterEach(() => rig.remove());

  const change = (seq: number): void => {
    const db = new Database(rig.file);
    expect(db.prepare(`update bench_lines set text = replace(text, '"mono":', '"mono":1') where seq = ?`).run(seq).changes).toBe(1);
    db.close();
  };
  const recent = (lines: number) => {
    const db = openForReading(rig.file);
    const found = finish(inspectRecent(db, null, lines));
    db.close();
    return found;
  };
  const breaksOf = (found: ReturnType<typeof recent>) => found?.bench.breaks;

  it('is looked at from the newest signed head that has enough lines behind it', () => {
    const [a = 0, b = 0, c = 0] = ends;
    expect([a, b, c]).toEqual([14, 28, 42]);
    expect(recent(10)).toMatchObject({ whole: false, bench: { head: { seq: c }, breaks: [] } });
    change(b + 3);
    expect(breaksOf(recent(10))).toEqual([{ how: 'changed', seq: b + 3 }]);
    change(a + 3);
    expect(breaksOf(recent(10))).toEqual([{ how: 'changed', seq: b + 3 }]);
    expect(breaksOf(recent(20))).toEqual([
      { how: 'changed', seq: a + 3 },
      { how: 'changed', seq: b + 3 },
    ]);
    expect(recent(40)).toBeNull();
  });

  it('is looked at from a head that is truly there: a line written anew below it shows at the next', () => {
    const db = new Database(rig.file);
    db.prepare('update bench_lines set link = leaf where seq = ?').run(ends[1]);
    db.close();
    // The walk begins above that line, and its head is not believed from the line but from the signed note.
    expect(breaksOf(recent(10))).toEqual([]);
    const whole = openForReading(rig.file);
    expect(finish(inspect(whole, null, false)).bench.breaks).toContainEqual({ how: 'other-head', seq: ends[1] });
    whole.close();
  });

  it('is looked at whole by a process apart, which names what the start did not see, and stops writing', async () => {
    change(5);
    expect(breaksOf(recent(10))).toEqual([]);
    const db = openForReading(rig.file);
    const standing = new Standing(rig.file, rig.log, null);
    const head = { seq: 42, link: '' };
    const checking = new Checking({
      db,
      file: rig.file,
      standing,
      log: rig.log,
      heads: () => ({ bench: head, workshop: head }),
      wholeUpTo: 10,
    });
    expect(await checking.verify()).toMatchObject({ ok: false, bench: { breaks: [{ how: 'changed', seq: 5 }] } });
    expect(standing.readOnly).toContain('Line 5 of the batch journal was changed after it was written');
    db.close();
  });
});
