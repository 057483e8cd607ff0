import Database from 'better-sqlite3';
import { closeSync, openSync, readSync } from 'node:fs';
import type { Realm } from '#lib/work/batch/index';
import { findingsOf, finish, inspect, inspectRecent, newestLine, WHOLE_UP_TO } from './check';
import type { Inspection } from './check';
import { openForReading, realmOf } from './file';
import type { Heads } from './heads';
import { APPLICATION_ID, expectedSchema, MIGRATIONS, schemaText, schemaVersion } from './migrate';
import { codeOf, StoreProblem } from './problem';
import type { ProblemText } from './problem';
import { newer, notWritable, otherRealm, unreadable } from './words';

/** What stands where the record should be. */
export type Seen =
  /** No file, or one without a single table: a first start, or the end of everything, which only the heads can tell apart. */
  | { readonly as: 'nothing' }
  | { readonly as: 'unreadable'; readonly problem: ProblemText }
  /** The connection that looked, still open. */
  | { readonly as: 'found'; readonly db: Database.Database; readonly inspection: Inspection };

/**
 * Looks without touching, by a connection that could not change the file. `inspecting`: how closely; left out, as a start does. Throws
 * `StoreProblem` for a sound file that is not for this program or this realm.
 */
export const look = (file: string, realm: Realm, heads: Heads | 'none' | 'damaged', inspecting: Inspecting = inspectionOf): Seen => {
  const header = headerOf(file);
  if (header === null) return { as: 'nothing' };
  const fault = typeof header === 'string' ? header : faultOf(header);
  if (fault !== null) return { as: 'unreadable', problem: unreadable(file, fault) };
  let db: Database.Database | null = null;
  try {
    db = openForReading(file);
    const seen = lookInto(db, file, realm, heads, inspecting);
    if (seen.as !== 'found') db.close();
    return seen;
  } catch (cause) {
    db?.close();
    if (!(cause instanceof Database.SqliteError)) throw cause;
    if (cause.code === 'SQLITE_CANTOPEN') throw new StoreProblem(notWritable(file, cause.code), cause);
    return { as: 'unreadable', problem: unreadable(file, `${cause.message} (${cause.code}).`) };
  }
};

const REALMS: ReadonlySet<string> = new Set<Realm>(['real', 'practice', 'test']);

type Inspecting = (db: Database.Database, kept: Heads | null) => Inspection;

const lookInto = (db: Database.Database, file: string, realm: Realm, heads: Heads | 'none' | 'damaged', inspecting: Inspecting): Seen => {
  const version = schemaVersion(db);
  if (version === 0 && isBlank(db)) return { as: 'nothing' };
  if (version === 0 || db.pragma('application_id', { simple: true }) !== APPLICATION_ID) {
    return { as: 'unreadable', problem: unreadable(file, 'it is a database, but not one of Potwatch.') };
  }
  const sound = schemaText(db) === expectedSchema(Math.min(version, MIGRATIONS.length));
  // A newer program would have left other tables.
  if (version > MIGRATIONS.length && !sound) throw new StoreProblem(newer(file, version));
  if (version > MIGRATIONS.length || !sound)
    return { as: 'unreadable', problem: unreadable(file, 'its tables are not those it was made with.') };
  const found = realmOf(db);
  if (found !== null && found !== realm) {
    if (REALMS.has(found)) throw new StoreProblem(otherRealm(file, found));
    return { as: 'unreadable', problem: unreadable(file, 'the realm written in it is damaged.') };
  }
  return { as: 'found', db, inspection: inspecting(db, typeof heads === 'string' ? null : heads) };
};

/** So many newest lines of a larger one are looked at before the start, at least. */
const RECENT = 10_000;

/** Damage in what was looked at: then all of it is, to say exactly where and hand out nothing that is wrong. */
const inspectionOf = (db: Database.Database, kept: Heads | null): Inspection => {
  const recent = newestLine(db) > WHOLE_UP_TO ? finish(inspectRecent(db, kept, RECENT)) : null;
  return recent !== null && findingsOf(recent).length === 0 ? recent : finish(inspect(db, kept, false));
};

const isBlank = (db: Database.Database): boolean => db.prepare('select count(*) from sqlite_schema').pluck().get() === 0;

/** SQLite's file header has 100 bytes (https://www.sqlite.org/fileformat2.html#the_database_header). */
const HEADER = 100;

/** The first bytes of the file; `null` when there is no file or nothing in it; a sentence when something there cannot be read. */
const headerOf = (file: string): Uint8Array | string | null => {
  let fd: number;
  try {
    fd = openSync(file, 'r');
  } catch (cause) {
    if (codeOf(cause) === 'ENOENT') return null;
    throw new StoreProblem(notWritable(file, codeOf(cause)), cause);
  }
  try {
    const header = new Uint8Array(HEADER);
    const read = readSync(fd, header);
    return read === 0 ? null : header.subarray(0, read);
  } catch (cause) {
    return codeOf(cause) === 'EISDIR' ? 'a folder stands in its place.' : `reading it failed (${codeOf(cause)}).`;
  } finally {
    closeSync(fd);
  }
};

const MAGIC = 'SQLite format 3\0';

const faultOf = (header: Uint8Array): string | null => {
  if (header.length < HEADER || new TextDecoder('latin1').decode(header.subarray(0, MAGIC.length)) !== MAGIC) return 'it is no database.';
  // The format for writing and for reading: 2 is a write-ahead log, 1 none. Any other makes SQLite quietly refuse to write.
  const [write = 0, read = 0] = header.subarray(18, 20);
  return write === read && (read === 1 || read === 2) ? null : 'its header is damaged.';
};
