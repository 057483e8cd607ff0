import Database from 'better-sqlite3';
import { accessSync, constants, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { codeOf, StoreProblem } from './problem';
import { isUnwritable, noFolder } from './words';

/** Held for as long as a program uses a data directory. */
export interface DirectoryLock {
  readonly dir: string;
  /** Takes one file of the directory for this program's own use; returns how to give it back. Throws when it is taken. */
  claim(file: string): () => void;
  release(): void;
}

const LOCK = 'in-use.lock';
const HOLDER = 'in-use.txt';

/**
 * Locks a data directory against a second server, or throws `StoreProblem` naming the holder.
 *
 * The lock is SQLite's own exclusive lock on an empty file, held open: the kernel lets go of it however the process ends, so
 * a kill or a power cut leaves nothing stale behind. The text file beside it only says who holds it; it proves nothing.
 */
export const lockDirectory = (dir: string, label = `process ${process.pid}`): DirectoryLock => {
  const lock = heldLock(dir);
  const holder = join(dir, HOLDER);
  try {
    writeFileSync(holder, `${label}\n`);
  } catch (cause) {
    lock.close();
    throw new StoreProblem(noFolder(dir, codeOf(cause)), cause);
  }
  const claimed = new Set<string>();
  return {
    dir,
    claim: (file) => {
      if (claimed.has(file)) throw new Error(`${file} is open in this program already`);
      claimed.add(file);
      return () => void claimed.delete(file);
    },
    release: () => {
      if (!lock.open) return;
      rmSync(holder, { force: true });
      lock.close();
    },
  };
};

const heldLock = (dir: string): Database.Database => {
  let lock: Database.Database | null = null;
  try {
    lock = new Database(join(dir, LOCK), { timeout: 0 });
    // A lock file opened for reading only would lock nobody out.
    accessSync(join(dir, LOCK), constants.W_OK);
    // Without this the first lock would leave a rollback journal behind after a kill.
    lock.pragma('journal_mode = MEMORY');
    lock.exec('BEGIN EXCLUSIVE');
    return lock;
  } catch (cause) {
    lock?.close();
    throw refusal(dir, cause);
  }
};

const refusal = (dir: string, cause: unknown): StoreProblem => {
  const busy = cause instanceof Database.SqliteError && cause.code.startsWith('SQLITE_BUSY');
  if (busy) {
    return new StoreProblem(
      {
        happened: `Another Potwatch (${saidHolder(dir) ?? 'unknown process'}) is using the data folder ${dir}.`,
        kept: 'Nothing was opened and nothing was changed.',
        todo: 'Use the one that runs, or stop it first; or start this one with another folder: --data DIR.',
      },
      cause,
    );
  }
  if (isUnwritable(codeOf(cause))) return new StoreProblem(noFolder(dir, codeOf(cause)), cause);
  return new StoreProblem(
    {
      happened: `The file ${LOCK} in ${dir} cannot be used as a lock: ${cause instanceof Error ? cause.message : String(cause)}.`,
      kept: 'Nothing was opened and nothing was changed.',
      todo: `Make sure no other Potwatch runs, delete ${LOCK} (it holds no data) and start again.`,
    },
    cause,
  );
};

/** Who says to hold a folder, as it stands beside the lock; `null`: nobody. It may be a process that was killed. */
export const saidHolder = (dir: string): string | null => {
  try {
    return readFileSync(join(dir, HOLDER), 'utf8').trim();
  } catch {
    return null;
  }
};
