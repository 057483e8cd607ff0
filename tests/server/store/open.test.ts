import Database from 'better-sqlite3';
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { chmodSync, copyFileSync, existsSync, mkdirSync, readdirSync, readFileSync, renameSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { JournalReadOnly } from '#lib/record/journal';
import { NotCanonical } from '#lib/record/canonical';
import { EMPTY } from '#lib/record/seal';
import { openForWriting } from '#server/store/file';
import { SqliteJournal } from '#server/store/journal';
import { MIGRATIONS } from '#server/store/migrate';
import { isUnwritable } from '#server/store/words';
import { openStore } from '#server/store/open';
import { StoreProblem } from '#server/store/problem';
import { pooledRandom } from '#server/store/random';
import { Standing } from '#server/store/standing';
import { appendOf, blobOf, entryOf } from '#tests/support/appends';
import { WITHOUT_RIGHTS } from '#tests/support/nobody';
import { storeRig } from '#tests/support/store-rig';
import type { Rig } from '#tests/support/store-rig';

const CHILD = join(import.meta.dirname, '../../support/store-child.ts');

describe('openStore', () => {
  let rig: Rig;
  beforeEach(() => {
    rig = storeRig();
  });
  afterEach(() => rig.remove());

  it('makes the folder and the file, and finds everything again', async () => {
    const options = { ...rig.options, dir: join(rig.dir, 'deep', 'down') };
    const store = await openStore(options);
    const [line] = await store.bench.append(
      appendOf([entryOf('a', 1)], { intent: { id: 'i', answer: { ok: true } }, blobs: [blobOf('x')] }),
    );
    await store.close();
    const again = await openStore(options);
    expect(again.health()).toEqual({ ok: true, seq: 1, readOnly: null, damage: [] });
    expect(await again.bench.linesOf('a')).toEqual([line]);
    expect(again.bench.link()).toBe(line?.link);
    expect(await again.bench.answerTo('i')).toEqual({ ok: true });
    expect(Buffer.from((await again.blobs.get(blobOf('x').sha256)) ?? []).toString()).toBe('x');
    expect(await again.blobs.get(blobOf('y').sha256)).toBeNull();
    await again.close();
  });

  it('leaves one file, its heads and no log after a close', async () => {
    const store = await openStore(rig.options);
    await store.bench.append(appendOf([entryOf('a', 1)]));
    await store.close();
    expect(readdirSync(rig.dir).toSorted()).toEqual(['in-use.lock', 'practice.heads', 'practice.sqlite']);
  });

  it('waits for the disk at every commit, reading the level back', async () => {
    const db = openForWriting(rig.file, 'practice', 0);
    expect(db.pragma('synchronous', { simple: true })).toBe(2);
    expect(db.pragma('journal_mode', { simple: true })).toBe('wal');
    expect(db.pragma('foreign_keys', { simple: true })).toBe(1);
    db.close();
  });

  it('makes the log as long as it gets before the first commit, and finds everything behind its zeros after a kill', async () => {
    const store = await openStore(rig.options);
    const size = (): number => statSync(`${rig.file}-wal`).size;
    const made = size();
    expect(made).toBeGreaterThan(4_000_000);
    for (let n = 1; n <= 20; n += 1) await store.bench.append(appendOf([entryOf('a', n)], { blobs: [blobOf(`${n}`.repeat(2000))] }));
    expect(size()).toBe(made);
    // As a kill leaves it: the files as they lie, the log not copied back.
    const killed = storeRig();
    for (const file of ['practice.sqlite', 'practice.sqlite-wal', 'practice.heads'])
      copyFileSync(join(rig.dir, file), join(killed.dir, file));
    await store.close();
    const again = await openStore(killed.options);
    expect(again.health()).toMatchObject({ ok: true, seq: 20 });
    await again.close();
    killed.remove();
  });

  it('keeps the log bounded', async () => {
    const store = await openStore(rig.options);
    for (let n = 1; n <= 600; n += 1) await store.bench.append(appendOf([entryOf('a', n)], { blobs: [blobOf(`${n}`.repeat(9000))] }));
    expect(statSync(`${rig.file}-wal`).size).toBeLessThan(6_000_000);
    expect(statSync(rig.file).size).toBeGreaterThan(12_000_000);
    await store.close();
  });

  it('takes only entries of its realm', async () => {
    const store = await openStore(rig.options);
    const real = { ...entryOf('a', 1), value: { id: 'a-1', batch: 'a', version: 1, kind: 'noted', realm: 'real' } };
    await expect(store.bench.append(appendOf([real]))).rejects.toThrow(NotCanonical);
    expect(store.bench.seq()).toBe(0);
    await store.close();
  });

  it('does not take one realm for another: a practice file renamed is refused', async () => {
    await (await openStore(rig.options)).close();
    renameSync(rig.file, join(rig.dir, 'real.sqlite'));
    await expect(openStore({ ...rig.options, realm: 'real' })).rejects.toThrow('realm "practice"');
    await expect(openStore({ ...rig.options, realm: 'real' })).rejects.toBeInstanceOf(StoreProblem);
  });

  it('leaves a newer file alone', async () => {
    await (await openStore(rig.options)).close();
    const db = new Database(rig.file);
    db.exec(`create table later (n integer) strict; insert into migrations values (${MIGRATIONS.length + 1}, 'later', 0)`);
    db.close();
    await expect(openStore(rig.options)).rejects.toThrow('newer Potwatch');
  });

  it('leaves a database of another program alone', async () => {
    const db = new Database(rig.file);
    db.exec('create table theirs (n integer)');
    db.close();
    const before = readFileSync(rig.file);
    const store = await openStore(rig.options);
    expect(store.health().readOnly).toContain('not one of Potwatch');
    await expect(store.bench.append(appendOf([entryOf('a', 1)]))).rejects.toThrow(JournalReadOnly);
    await store.close();
    expect(readFileSync(rig.file).equals(before)).toBe(true);
  });

  it('takes up a start that ended before its first commit', async () => {
    const db = new Database(rig.file);
    db.pragma('journal_mode = WAL');
    db.close();
    const store = await openStore(rig.options);
    await store.bench.append(appendOf([entryOf('a', 1)]));
    await store.close();
  });

  it('gives the lock back when it cannot open', async () => {
    writeFileSync(rig.file, 'text');
    mkdirSync(join(rig.dir, 'practice.heads'));
    await expect(openStore(rig.options)).rejects.toThrow();
    expect(existsSync(join(rig.dir, 'in-use.txt'))).toBe(false);
    const store = await openStore({ ...rig.options, realm: 'test' });
    await store.close();
  });

  it.each([
    ['the folder', (r: Rig) => r.dir],
    ['the file', (r: Rig) => r.file],
    ['the lock', (r: Rig) => join(r.dir, 'in-use.lock')],
  ])('says so when %s may not be written', async (_, what) => {
    await (await openStore(rig.options)).close();
    for (const file of readdirSync(rig.dir)) chmodSync(join(rig.dir, file), 0o666);
    chmodSync(rig.dir, 0o777);
    chmodSync(what(rig), what(rig) === rig.dir ? 0o555 : 0o444);
    // Permissions mean nothing to root.
    const env = { ...process.env, ...WITHOUT_RIGHTS };
    const child = spawn(process.execPath, ['--import', 'tsx', CHILD, 'hold', rig.dir], { env, stdio: ['ignore', 'pipe', 'inherit'] });
    const [said] = (await once(createInterface(child.stdout), 'line')) as [string];
    expect(said).toMatch(
      /^refused .* cannot be (opened for writing|made or written to) .* Nothing was changed\. Give the user who runs Potwatch the right/,
    );
  });
});

describe('a place that cannot be written to', () => {
  it.each(['EROFS', 'EACCES', 'EPERM', 'ENOSPC', 'SQLITE_FULL', 'SQLITE_CANTOPEN', 'SQLITE_READONLY_DIRECTORY'])(
    '%s says so of the place, and not of the lock in it',
    (code) => expect(isUnwritable(code)).toBe(true),
  );
  it.each(['SQLITE_NOTADB', 'SQLITE_BUSY', 'EISDIR'])('%s does not', (code) => expect(isUnwritable(code)).toBe(false));
});

describe('a disk that fills up', () => {
  it('refuses the entry, says so, and goes on by itself once there is room', async () => {
    const rig = storeRig();
    const db = openForWriting(rig.file, 'practice', 0);
    const standing = new Standing(rig.file, rig.log, null);
    const parts = {
      name: 'bench',
      realm: 'practice',
      db,
      standing,
      salt: () => pooledRandom()(16),
      head: EMPTY,
      suspect: null,
    } as const;
    const journal = new SqliteJournal({ ...parts, within: () => undefined, after: () => undefined });
    await journal.append(appendOf([entryOf('a', 1)]));
    // SQLite's own limit gives the error a full disk gives (SQLITE_FULL).
    db.pragma(`max_page_count = ${Number(db.pragma('page_count', { simple: true }))}`);
    const large = appendOf([entryOf('a', 2)], { intent: { id: 'i', answer: null }, blobs: [blobOf('x'.repeat(100_000))] });
    await expect(journal.append(large)).rejects.toThrow(JournalReadOnly);
    expect(standing.readOnly).toMatch(/is full\. The last entry was not recorded\..*Make room/);
    expect(journal.seq()).toBe(1);
    expect(await journal.answerTo('i')).toBeNull();
    db.pragma('max_page_count = 1000000');
    await journal.append(large);
    expect(standing.readOnly).toBeNull();
    expect((await journal.linesOf('a')).length).toBe(2);
    db.close();
    rig.remove();
  });
});
