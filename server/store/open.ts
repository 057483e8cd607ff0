import Database from 'better-sqlite3';
import { mkdirSync, statSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { EMPTY } from '#lib/record/seal';
import { findingsOf, finish, inspect } from './check';
import type { Inspection } from './check';
import { codeOf, openForReading, openForWriting, realmOf } from './file';
import { HeadsFile, readHeads } from './heads';
import type { Heads } from './heads';
import { lockDirectory } from './lock';
import { APPLICATION_ID, MIGRATIONS, schemaVersion } from './migrate';
import { StoreProblem } from './problem';
import type { ProblemText } from './problem';
import { pooledRandom } from './random';
import { replaceRows } from './rows';
import { SqliteStore } from './sqlite-store';
import { Standing } from './standing';
import type { Store, StoreOptions } from './store';
import { unreadableStore } from './unreadable';
import { damaged, gone, newer, notWritable, otherRealm, unreadable } from './words';

/**
 * Opens the record of one realm, and makes it when there is none. The whole file is checked before anything may be written.
 *
 * A damaged record opens read-only: `health().readOnly` says what happened, what is kept and what to do, appends are refused
 * with `JournalReadOnly`, lines that were changed are refused on reading, and nothing on the disk is touched. Throws
 * `StoreProblem` when the program must not start: the folder is in use or not writable, the file is of another realm or of a
 * newer program, or the database will not sync every commit.
 */
export const openStore = async (options: StoreOptions): Promise<Store> => {
  const dir = resolve(options.dir);
  makeFolder(dir);
  const own = options.lock === undefined ? lockDirectory(dir) : null;
  try {
    const giveBack = (options.lock ?? own)?.claim(`${options.realm}.sqlite`);
    const release = (): void => {
      giveBack?.();
      own?.release();
    };
    return open({ ...options, dir, file: join(dir, `${options.realm}.sqlite`), release });
  } catch (cause) {
    own?.release();
    throw cause;
  }
};

interface Opening extends StoreOptions {
  readonly file: string;
  readonly release: () => void;
}

const open = (opening: Opening): Store => {
  const { file, log, release } = opening;
  const kept = readHeads(headsPath(file));
  if (kept === 'damaged') log.warn({ file }, 'the heads file is damaged: lost newest lines could not be noticed this time');
  const heads = typeof kept === 'string' ? null : kept;
  const seen = look(opening, heads);
  if (seen.as === 'unreadable') return sayWhy(opening, seen.problem);
  if (seen.as === 'new') return openToWrite(opening, null);
  const findings = findingsOf(seen.inspection);
  if (findings.length === 0) {
    seen.db.close();
    return openToWrite(opening, seen.inspection);
  }
  log.error({ file, findings }, 'the record is damaged');
  try {
    const standing = new Standing(file, log, damaged(file, findings));
    return new SqliteStore({ ...partsOf(opening), db: seen.db, standing, inspection: seen.inspection, heads: null, release });
  } catch (cause) {
    seen.db.close();
    return sayWhy(opening, damaged(file, [...findings, String(cause)]));
  }
};

type Seen =
  | { readonly as: 'new' }
  | { readonly as: 'unreadable'; readonly problem: ProblemText }
  | { readonly as: 'found'; readonly db: Database.Database; readonly inspection: Inspection };

/** Looks without touching, by a connection that could not change the file. */
const look = ({ file, realm }: Opening, heads: Heads | null): Seen => {
  if (sizeOf(file) === 0) {
    const lines = heads === null ? 0 : heads.bench.seq + heads.workshop.seq;
    return lines > 0 ? { as: 'unreadable', problem: gone(file, lines) } : { as: 'new' };
  }
  let db: Database.Database | null = null;
  try {
    db = openForReading(file);
    const version = schemaVersion(db);
    // Made by a start that ended before its first commit.
    if (version === 0 && isBlank(db)) {
      db.close();
      return { as: 'new' };
    }
    const id = db.pragma('application_id', { simple: true });
    if (version === 0 || id !== APPLICATION_ID) {
      db.close();
      return { as: 'unreadable', problem: unreadable(file, 'it is a database, but not one of Potwatch.') };
    }
    if (version > MIGRATIONS.length) throw new StoreProblem(newer(file, version));
    const found = realmOf(db);
    if (found !== null && found !== realm) throw new StoreProblem(otherRealm(file, found));
    return { as: 'found', db, inspection: finish(inspect(db, heads, false)) };
  } catch (cause) {
    db?.close();
    if (!(cause instanceof Database.SqliteError)) throw cause;
    if (cause.code === 'SQLITE_CANTOPEN') throw new StoreProblem(notWritable(file, cause.code), cause);
    return { as: 'unreadable', problem: unreadable(file, `${cause.message} (${cause.code}).`) };
  }
};

const openToWrite = (opening: Opening, inspection: Inspection | null): Store => {
  const { file, realm, clock, log, release } = opening;
  const db = openForWriting(file, realm, clock.wall());
  try {
    if (inspection?.rowsStale) {
      log.warn({ file }, 'the list of batches was not what follows from the record, and was replayed');
      replaceRows(db, inspection.rows);
    }
    const heads = new HeadsFile(headsPath(file), log);
    return new SqliteStore({
      ...partsOf(opening),
      db,
      standing: new Standing(file, log, null),
      inspection: inspection ?? NOTHING_YET,
      heads,
      release,
    });
  } catch (cause) {
    db.close();
    throw cause;
  }
};

const NOTHING_YET: Inspection = {
  bench: { head: EMPTY, breaks: [] },
  workshop: { head: EMPTY, breaks: [] },
  file: [],
  rows: new Map(),
  rowsStale: false,
};

const partsOf = ({ realm, file, clock, random }: Opening) => ({
  realm,
  file,
  clock,
  random: random ?? pooledRandom(),
});

const sayWhy = ({ realm, file, log, release }: Opening, problem: ProblemText): Store => {
  const standing = new Standing(file, log, problem);
  return unreadableStore(realm, file, standing.readOnly ?? '', release);
};

const headsPath = (file: string): string => file.replace(/\.sqlite$/, '.heads');

const isBlank = (db: Database.Database): boolean => db.prepare('select count(*) from sqlite_schema').pluck().get() === 0;

const sizeOf = (file: string): number => statSync(file, { throwIfNoEntry: false })?.size ?? 0;

const makeFolder = (dir: string): void => {
  try {
    mkdirSync(dir, { recursive: true });
  } catch (cause) {
    throw new StoreProblem(notWritable(dir, codeOf(cause)), cause);
  }
};
