import Database from 'better-sqlite3';
import { chmodSync, copyFileSync, mkdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { keyOfLine, readNote } from '#lib/record/note';
import { wall } from '#lib/units/time';
import { as } from '#lib/units/id';
import { LOOK_EVERY_MS, startKeeper } from '#server/proof/keeper';
import { openStore } from '#server/store/open';
import { appendOf, entryOf } from '#tests/support/appends';
import { relink } from '#tests/support/forge';
import { keptRecord } from '#tests/support/proof-rig';
import type { Kept } from '#tests/support/proof-rig';
import { sampleBatch } from '#tests/support/sample-batch';
import { STILL, storeRig } from '#tests/support/store-rig';
import type { Rig } from '#tests/support/store-rig';
import { toolWell } from '#tests/support/tools';

const MAKER = as<never>('person-1');

describe('the keeper of a record’s heads', () => {
  let rig: Rig;
  let kept: Kept;
  const keyFile = (): string => join(rig.dir, 'practice.key');
  beforeEach(async () => {
    rig = storeRig();
    kept = await keptRecord(rig.options);
  });
  afterEach(async () => {
    vi.useRealTimers();
    await kept.close();
    rig.remove();
  });
  const again = async (): Promise<void> => {
    await kept.close();
    kept = await keptRecord(rig.options);
  };

  it('makes a key at the first start, for this user alone, and keeps it', async () => {
    expect(statSync(keyFile()).mode & 0o777).toBe(0o600);
    const [pem, named] = [readFileSync(keyFile(), 'utf8'), kept.store.proof.named()];
    expect(pem).toContain('PRIVATE KEY');
    await again();
    expect(readFileSync(keyFile(), 'utf8')).toBe(pem);
    expect(kept.store.proof.named()).toEqual(named);
    expect(kept.store.workshop.seq()).toBe(1);
  });

  it('closes a key that others could read, and says so', async () => {
    await kept.close();
    chmodSync(keyFile(), 0o644);
    kept = await keptRecord(rig.options);
    expect(statSync(keyFile()).mode & 0o777).toBe(0o600);
    expect(rig.log.said).toContain('warn others could read the key; now only this user can');
  });

  it('never replaces a key it cannot read, and goes on without signing', async () => {
    await kept.close();
    writeFileSync(keyFile(), 'no key');
    kept = await keptRecord(rig.options);
    await kept.make('a');
    expect(readFileSync(keyFile(), 'utf8')).toBe('no key');
    expect(kept.keeper.trouble().signing).toContain('cannot be read');
    expect(kept.store.proof.newest('bench')).toBeNull();
    expect(kept.store.health().ok).toBe(true);
  });

  it('signs when a batch closes, off the way of the commit, so that openssl agrees', async () => {
    const [last, ...rest] = sampleBatch({ batch: 'a', lines: 2, stripBytes: 100 }).toReversed();
    for (const append of rest.toReversed()) await kept.store.bench.append(append);
    expect(kept.store.proof.newest('bench')).toBeNull();
    if (last !== undefined) await kept.store.bench.append(last);
    // The commit is acknowledged, whoever waits for it has gone on, and nothing is signed yet.
    for (let turn = 0; turn < 100; turn += 1) await Promise.resolve();
    expect(kept.store.proof.newest('bench')).toBeNull();
    await expect.poll(() => kept.store.proof.newest('bench')?.checkpoint.seq).toBe(kept.store.bench.seq());
    const note = kept.store.proof.newest('bench')?.note ?? '';
    expect(readNote(note)?.checkpoint).toMatchObject({ seq: kept.store.bench.seq(), link: kept.store.bench.link() });
    // By another program altogether.
    const key = keyOfLine(kept.keeper.keys()?.bench ?? '')?.publicKey ?? new Uint8Array();
    writeFileSync(join(rig.dir, 'key.der'), Buffer.concat([Buffer.from('302a300506032b6570032100', 'hex'), key]));
    writeFileSync(join(rig.dir, 'text'), note.slice(0, note.lastIndexOf('\n\n') + 1));
    writeFileSync(join(rig.dir, 'signature'), Buffer.from(note.trimEnd().split(' ').at(-1) ?? '', 'base64').subarray(4));
    const how = ['pkeyutl', '-verify', '-pubin', '-keyform', 'DER', '-inkey', 'key.der', '-rawin', '-in', 'text', '-sigfile', 'signature'];
    expect(toolWell('openssl', how, { cwd: rig.dir })).toContain('Signature Verified Successfully');
  });

  it('signs daily what is new, and nothing twice', async () => {
    await kept.close();
    vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval'] });
    let now = STILL.wall();
    const store = await openStore(rig.options);
    const keeper = await startKeeper({ store, dir: rig.dir, clock: { ...STILL, wall: () => now }, log: rig.log });
    kept = { ...kept, store, keeper, close: () => keeper.stop().then(() => store.close()) };
    const signed = (): number | undefined => store.proof.newest('bench')?.checkpoint.seq;
    const anHourLater = async (): Promise<void> => {
      await vi.advanceTimersByTimeAsync(LOOK_EVERY_MS);
      await keeper.idle();
    };
    await store.bench.append(appendOf([entryOf('b', 1)]));
    await anHourLater();
    expect(signed()).toBe(1);
    await store.bench.append(appendOf([entryOf('b', 2)]));
    await anHourLater();
    expect(signed()).toBe(1);
    now = wall(now + 25 * 3_600_000);
    await anHourLater();
    expect(signed()).toBe(2);
    const lines = store.workshop.seq();
    now = wall(now + 25 * 3_600_000);
    await anHourLater();
    expect(store.workshop.seq()).toBe(lines);
  });

  it('has the workshop journal signed as well, once it says more than what is about proof', async () => {
    await kept.make('a');
    const heads = kept.store.workshop.seq();
    await kept.keeper.sign();
    expect(kept.store.workshop.seq()).toBe(heads);
    expect(kept.store.proof.newest('workshop')).toBeNull();
    await kept.store.settings.setScreen({ mass: 'oz', temperature: 'F' }, MAKER);
    await kept.keeper.sign();
    expect(kept.store.proof.newest('workshop')?.checkpoint.origin).toMatch(/^potwatch\/[0-9a-f]{16}\/practice\/workshop$/);
  });

  it('finds the heads around any line', async () => {
    for (const batch of ['a', 'b', 'c']) await kept.make(batch);
    const ends = await Promise.all(['a', 'b', 'c'].map(async (batch) => (await kept.store.bench.linesOf(batch)).at(-1)?.seq ?? 0));
    const { proof } = kept.store;
    expect(ends.map((seq) => proof.covering('bench', seq)?.checkpoint.seq)).toEqual(ends);
    expect(ends.map((seq) => proof.before('bench', seq)?.checkpoint.seq ?? 0)).toEqual([0, ends[0], ends[1]]);
    expect(proof.covering('bench', (ends[2] ?? 0) + 1)).toBeNull();
  });
});

describe('a copy that was put back', () => {
  let rig: Rig;
  let kept: Kept;
  beforeEach(async () => {
    rig = storeRig();
    kept = await keptRecord(rig.options);
    await kept.make('a');
  });
  afterEach(async () => {
    await kept.close();
    rig.remove();
  });
  const copy = (): string => {
    const to = join(rig.dir, 'copy.sqlite');
    const db = new Database(rig.file);
    db.prepare('vacuum into ?').run(to);
    db.close();
    return to;
  };

  it.each([
    ['in its own folder, the record having gone on since', true],
    ['in another folder, with a key of its own', false],
  ])('%s: goes on under another name, whose first line names the old heads', async (_, here) => {
    const [at, named] = [copy(), kept.store.proof.named()];
    const head = { seq: kept.store.bench.seq(), link: kept.store.bench.link() };
    await kept.make('lost');
    await kept.close();
    const dir = here ? rig.dir : join(rig.dir, 'elsewhere');
    mkdirSync(dir, { recursive: true });
    rmSync(join(dir, 'practice.heads'), { force: true });
    copyFileSync(at, join(dir, 'practice.sqlite'));
    kept = await keptRecord({ ...rig.options, dir });
    const now = kept.store.proof.named();
    expect(now?.id).not.toBe(named?.id);
    expect(now?.from?.bench).toEqual({ origin: `potwatch/${named?.id}/practice/bench`, ...head });
    const [first] = await kept.store.bench.lines(head.seq, 1);
    expect(JSON.parse(first?.text ?? '')).toMatchObject({ kind: 'journal-named', body: { id: now?.id, from: { bench: head } } });
    await kept.make('b');
    expect(kept.store.proof.newest('bench')?.checkpoint.origin).toBe(`potwatch/${now?.id}/practice/bench`);
    expect(await kept.store.verify()).toMatchObject({ ok: true });
    // Once: the next start is of the same record.
    await kept.close();
    kept = await keptRecord({ ...rig.options, dir });
    expect(kept.store.proof.named()).toEqual(now);
  });
});

describe('a record that somebody changed with everything inside it made to fit', () => {
  let rig: Rig;
  beforeEach(async () => {
    rig = storeRig();
    const kept = await keptRecord(rig.options);
    await kept.make('a');
    await kept.make('b');
    await kept.close();
  });
  afterEach(() => rig.remove());

  const readOnlyAfter = async (change: (db: Database.Database) => void): Promise<string> => {
    const db = new Database(rig.file);
    change(db);
    db.close();
    // Whoever changes the database changes the file beside it too.
    rmSync(join(rig.dir, 'practice.heads'));
    const store = await openStore(rig.options);
    const { readOnly } = store.health();
    await store.close();
    return readOnly ?? 'nothing was found';
  };

  it('is found by the signed heads: lines linked anew from one on', async () => {
    const found = await readOnlyAfter((db) => relink(db, 'bench', 5, (text) => text.replace('"gross":', '"gross":1')));
    expect(found).toContain('of the batch journal is not the one its kept head was taken from');
  });

  it('is found by the signatures: the heads written anew as well', async () => {
    const found = await readOnlyAfter((db) => {
      relink(db, 'bench', 5, (text) => text.replace('"gross":', '"gross":1'));
      const links = new Map(db.prepare('select seq, link from bench_lines').raw().all() as [number, string][]);
      relink(db, 'workshop', 1, (text) =>
        text.replaceAll(/\/bench\\n(\d+)\\n[^\\]+/g, (_, seq: string) => {
          const link = Buffer.from(links.get(Number(seq)) ?? '', 'hex').toString('base64');
          return `/bench\\n${seq}\\n${link}`;
        }),
      );
    });
    expect(found).toMatch(/The head of the batch journal at line \d+ is not signed with the key of this record/);
  });

  it('is found by the workshop’s own heads: its lines linked anew', async () => {
    const kept = await keptRecord(rig.options);
    await kept.store.settings.setScreen({ mass: 'oz', temperature: 'F' }, MAKER);
    await kept.keeper.sign();
    await kept.close();
    const found = await readOnlyAfter((db) => relink(db, 'workshop', 2, (text) => text.replace('"temperature":"F"', '"temperature":"C"')));
    expect(found).toContain('of the workshop journal is not the one its kept head was taken from');
  });
});
