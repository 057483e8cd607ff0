import Database from 'better-sqlite3';
import { closeSync, fstatSync, fsyncSync, mkdirSync, openSync, writeSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { migrate, MIGRATIONS } from './migrate';
import type { Migration } from './migrate';
import { codeOf, StoreProblem } from './problem';
import { prepare, query } from './tables';
import { notBackedUp, notSynchronous, notWritable } from './words';

/** The level SQLite calls FULL: every commit waits for the disk. */
const FULL = 2;
/** Pages of 4 kB after which the write-ahead log is copied back into the file. */
const WAL_PAGES = 1000;
/** How long the log is kept: those pages, each with its 24 bytes of header, and the commit that goes past them. */
const WAL_BYTES = (WAL_PAGES + 64) * (4096 + 24);

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
    lengthenLog(`${path}-wal`);
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

/**
 * Makes the write-ahead log as long as it will get, before the first weight. A commit that has to lengthen a file waits for
 * the file system's own records as well: measured, such a commit takes 1.7 times as long. SQLite passes over what follows the
 * last whole commit in a log, so zeros there mean nothing. A log that stays short is slower and nothing worse.
 */
const lengthenLog = (log: string): void => {
  let fd: number | null = null;
  try {
    fd = openSync(log, 'r+');
    const from = fstatSync(fd).size;
    if (from < WAL_BYTES) writeSync(fd, new Uint8Array(WAL_BYTES - from), 0, WAL_BYTES - from, from);
    fsyncSync(fd);
  } catch {
    // No room, or no such log: the next commit says so if it matters.
  } finally {
    if (fd !== null) closeSync(fd);
  }
};

/** Realm the file was made for; `null` before it was first opened for writing. */
export const realmOf = (db: Database.Database): string | null =>
  prepare<{ name: string }>(db)(({ name }) => query.selectFrom('meta').select('value').where('name', '=', name)).get({ name: 'realm' })
    ?.value ?? null;

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
