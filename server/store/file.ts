import Database from 'better-sqlite3';
import { closeSync, fsyncSync, mkdirSync, openSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { migrate, MIGRATIONS } from './migrate';
import type { Migration } from './migrate';
import { codeOf, StoreProblem } from './problem';
import { prepare, query } from './tables';
import { notBackedUp, notSynchronous, notWritable } from './words';

/** The level SQLite calls FULL: every commit waits for the disk. */
const FULL = 2;
/** 4 kB pages: the write-ahead log is copied back at about 4 MB, and cut to that when it once grew longer. */
const WAL_PAGES = 1000;
const WAL_BYTES = 4_194_304;

/** For looking only: a connection that cannot change the file, not even by tidying the write-ahead log away. */
export const openForReading = (path: string): Database.Database => new Database(path, { readonly: true, fileMustExist: true });

/**
 * The one writing connection: WAL with a sync at every commit, schema brought up to date. Throws `StoreProblem` when the file
 * cannot be written or the level of syncing is not what was asked.
 */
export const openForWriting = (
  path: string,
  realm: string,
  wall: number,
  migrations: readonly Migration[] = MIGRATIONS,
): Database.Database => {
  let db: Database.Database;
  try {
    db = new Database(path);
  } catch (cause) {
    throw new StoreProblem(notWritable(path, codeOf(cause)), cause);
  }
  try {
    setUp(db, path);
    migrate(db, wall, (from) => backUp(db, path, from, wall), migrations);
    noteOpening(db, realm, wall);
    // The build's own default for WAL can take over at the first write: what counts is the level after it.
    assertFull(db, path);
    return db;
  } catch (cause) {
    db.close();
    throw cause instanceof Database.SqliteError ? new StoreProblem(notWritable(path, cause.code), cause) : cause;
  }
};

const setUp = (db: Database.Database, path: string): void => {
  const mode = db.pragma('journal_mode = WAL', { simple: true });
  if (mode !== 'wal') throw new StoreProblem(notWritable(path, `journal mode is ${String(mode)}`));
  db.pragma('synchronous = FULL');
  assertFull(db, path);
  db.pragma('foreign_keys = ON');
  db.pragma(`wal_autocheckpoint = ${WAL_PAGES}`);
  db.pragma(`journal_size_limit = ${WAL_BYTES}`);
  // An erased name is overwritten, not only unlinked.
  db.pragma('secure_delete = ON');
  db.pragma('cell_size_check = ON');
  db.pragma('trusted_schema = OFF');
};

const assertFull = (db: Database.Database, path: string): void => {
  const level = db.pragma('synchronous', { simple: true });
  if (level !== FULL) throw new StoreProblem(notSynchronous(path, level));
};

const noteOpening = (db: Database.Database, realm: string, wall: number): void => {
  const set = prepare<{ name: string; value: string }>(db)(({ name, value }) =>
    query
      .insertInto('meta')
      .values({ name, value })
      .onConflict((c) => c.column('name').doUpdateSet({ value })),
  );
  set.run({ name: 'realm', value: realm });
  set.run({ name: 'opened', value: String(wall) });
};

/** Realm the file was made for; `null` before it was first opened for writing. */
export const realmOf = (db: Database.Database): string | null =>
  prepare<object>(db)(() => query.selectFrom('meta').select('value').where('name', '=', 'realm')).get({})?.value ?? null;

/** A whole copy beside the data, on disk before anything is changed. */
const backUp = (db: Database.Database, path: string, from: number, wall: number): void => {
  const folder = join(dirname(path), 'backups');
  const stamp = new Date(wall).toISOString().replaceAll(/[:.]/g, '-');
  const copy = join(folder, `${basename(path, '.sqlite')}-schema-${from}-${stamp}.sqlite`);
  try {
    mkdirSync(folder, { recursive: true });
    db.prepare('vacuum into ?').run(copy);
    sync(copy);
    sync(folder);
  } catch (cause) {
    throw new StoreProblem(notBackedUp(path, codeOf(cause)), cause);
  }
};

const sync = (path: string): void => {
  const fd = openSync(path, 'r');
  try {
    fsyncSync(fd);
  } finally {
    closeSync(fd);
  }
};
