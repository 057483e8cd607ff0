import { existsSync, mkdirSync, statSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { EMPTY } from '#lib/record/seal';
import { findingsOf, finish, inspect } from './check';
import type { Inspection } from './check';
import { NO_ROWS } from './derived-rows';
import { openForWriting } from './file';
import { HeadsFile, headsPath, linesIn, readHeads } from './heads';
import { lockDirectory } from './lock';
import { look } from './look';
import { codeOf, StoreProblem } from './problem';
import type { ProblemText } from './problem';
import { pooledRandom } from './random';
import { isUnindexed, replaceRows } from './rows';
import { SqliteStore } from './sqlite-store';
import { Standing } from './standing';
import type { Store, StoreOptions } from './store';
import { unreadableStore } from './unreadable';
import { damaged, gone, noFolder } from './words';

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
  const heads = readHeads(headsPath(file));
  const seen = look(opening.file, opening.realm, heads);
  if (seen.as === 'unreadable') return sayWhy(opening, seen.problem);
  if (seen.as === 'nothing') return heads === 'none' ? openToWrite(opening, null) : sayWhy(opening, gone(file, linesIn(heads)));
  if (typeof heads === 'string') log.warn({ file }, `heads file: ${heads}. Lost newest lines could not be noticed this time`);
  const findings = findingsOf(seen.inspection);
  if (findings.length === 0) {
    seen.db.close();
    return openToWrite(opening, seen.inspection, heads === 'none' && hasLines(seen.inspection));
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

const hasLines = ({ bench, workshop }: Inspection): boolean => bench.head.seq + workshop.head.seq > 0;

const openToWrite = (opening: Opening, inspection: Inspection | null, copied = false): Store => {
  const { file, realm, clock, log, release } = opening;
  const db = openForWriting(file, realm, clock.wall());
  try {
    if (opening.apart === true) db.pragma('synchronous = OFF');
    if (inspection?.rowsStale) {
      log.warn({ file }, 'the list of batches was not what follows from the record, and was replayed');
      replaceRows(db, inspection.rows);
    }
    // Of a large record not every line was read: what a new table of this program must hold is read for it once.
    if (inspection?.whole === false && isUnindexed(db)) replaceRows(db, finish(inspect(db, null, false)).rows);
    const heads = new HeadsFile(headsPath(file), log);
    return new SqliteStore({
      ...partsOf(opening),
      db,
      standing: new Standing(file, log, null),
      inspection: inspection ?? NOTHING_YET,
      heads,
      copied,
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
  withdrawn: [],
  whole: true,
  suspect: { bench: new Set(), workshop: new Set() },
  rows: NO_ROWS,
  rowsStale: false,
};

const partsOf = ({ realm, file, clock, log, random }: Opening) => ({
  realm,
  file,
  log,
  clock,
  random: random ?? pooledRandom(),
});

const sayWhy = ({ realm, file, log, release }: Opening, problem: ProblemText): Store => {
  return unreadableStore(realm, file, new Standing(file, log, problem), release);
};

/** Makes the folder, for this user alone. Throws `StoreProblem` when it cannot be, or when something else stands there. */
export const makeFolder = (dir: string): void => {
  try {
    // One below the other: made all at once, Node says of every failure that there is no such folder, or never ends (below /proc).
    for (const folder of missing(resolve(dir))) mkdirSync(folder, { mode: 0o700 });
    if (!statSync(dir).isDirectory()) throw Object.assign(new Error(`${dir} is no folder`), { code: 'ENOTDIR' });
  } catch (cause) {
    throw new StoreProblem(noFolder(dir, codeOf(cause)), cause);
  }
};

/** The folders on the way to one that are not there, outermost first. */
const missing = (dir: string): readonly string[] => (existsSync(dir) ? [] : [...missing(dirname(dir)), dir]);
