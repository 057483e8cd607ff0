import Database from 'better-sqlite3';
import { readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openForWriting } from '#server/store/file';
import { MIGRATIONS, schemaVersion } from '#server/store/migrate';
import { openStore } from '#server/store/open';
import { StoreProblem } from '#server/store/problem';
import { appendOf, entryOf } from '#tests/support/appends';
import { storeRig } from '#tests/support/store-rig';
import type { Rig } from '#tests/support/store-rig';

const LATER = [...MIGRATIONS, { name: 'later', up: ['create table later (n integer) strict'] }];
const BROKEN = [...LATER, { name: 'broken', up: ['create table half (n integer) strict', 'create table later (n integer) strict'] }];

describe('migrations', () => {
  let rig: Rig;
  beforeEach(async () => {
    rig = storeRig();
    const store = await openStore(rig.options);
    await store.bench.append(appendOf([entryOf('a', 1)]));
    await store.close();
  });
  afterEach(() => rig.remove());
  const backups = (): string[] => (readdirSync(rig.dir).includes('backups') ? readdirSync(join(rig.dir, 'backups')) : []);

  it('makes no backup when there is nothing to do', async () => {
    await (await openStore(rig.options)).close();
    expect(backups()).toEqual([]);
  });

  it('makes a whole copy before it changes a file with data', () => {
    openForWriting(rig.file, 'practice', 1_760_000_000_000, LATER).close();
    expect(backups()).toEqual([`practice-schema-${MIGRATIONS.length}-2025-10-09T08-53-20-000Z.sqlite`]);
    const copy = new Database(join(rig.dir, 'backups', backups()[0] ?? ''), { readonly: true });
    expect(schemaVersion(copy)).toBe(MIGRATIONS.length);
    expect(copy.prepare('select id from bench_lines').pluck().all()).toEqual(['a-1']);
    copy.close();
  });

  it('changes nothing when the copy cannot be made', () => {
    writeFileSync(join(rig.dir, 'backups'), 'in the way');
    expect(() => openForWriting(rig.file, 'practice', 0, LATER)).toThrow(StoreProblem);
    const db = new Database(rig.file, { readonly: true });
    expect(schemaVersion(db)).toBe(MIGRATIONS.length);
    db.close();
  });

  it('undoes everything when a step fails', () => {
    expect(() => openForWriting(rig.file, 'practice', 0, BROKEN)).toThrow(StoreProblem);
    const db = new Database(rig.file, { readonly: true });
    expect(schemaVersion(db)).toBe(MIGRATIONS.length);
    expect(db.prepare("select count(*) from sqlite_schema where name in ('later', 'half')").pluck().get()).toBe(0);
    db.close();
  });
});
