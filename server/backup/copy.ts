import { closeSync, fsyncSync, mkdirSync, openSync, readdirSync, renameSync, rmSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Realm } from '#lib/work/batch/index';
import { findingsOf, finish, inspect } from '../store/check';
import { openForReading, realmOf } from '../store/file';
import { readHeads } from '../store/heads';
import type { Heads } from '../store/heads';
import { codeOf, StoreProblem } from '../store/problem';

/** A file that is not whole yet bears this at its end; whoever finds one from a run that is over may remove it. */
export const UNFINISHED = '.unfinished';

/** What was copied and looked at. */
export interface Copied {
  readonly file: string;
  readonly bytes: number;
  /** Lines of both journals in the copy. */
  readonly lines: number;
}

/**
 * A whole copy of a record, made beside a program that goes on writing to it (`VACUUM INTO` from a reading connection), then looked at
 * line by line and blob by blob. It gets its name only once it is on disk and sound: whatever happens before leaves nothing but a file
 * that says it is unfinished. Throws `StoreProblem` when it cannot be made or is not sound; then it is removed.
 */
export const copyRecord = (from: string, to: string): Copied => {
  const unfinished = `${to}${UNFINISHED}`;
  // Read before, so that the copy must hold at least what stood then.
  const heads = readHeads(from.replace(/\.sqlite$/, '.heads'));
  try {
    mkdirSync(dirname(to), { recursive: true, mode: 0o700 });
    rmSync(unfinished, { force: true });
    const db = openForReading(from);
    try {
      db.prepare('vacuum into ?').run(unfinished);
    } finally {
      db.close();
    }
    sync(unfinished);
    const lines = lookAt(unfinished, typeof heads === 'string' ? null : heads);
    renameSync(unfinished, to);
    sync(dirname(to));
    return { file: to, bytes: statSync(to).size, lines };
  } catch (cause) {
    rmSync(unfinished, { force: true });
    throw cause instanceof StoreProblem ? cause : notCopied(to, codeOf(cause), cause);
  }
};

/** Looks at all of a record's file; the number of lines in it. Throws `StoreProblem` when anything of it is not sound. */
export const lookAt = (file: string, heads: Heads | null): number => {
  const db = openForReading(file);
  try {
    const found = finish(inspect(db, heads, true));
    const [first, ...more] = findingsOf(found);
    if (first !== undefined) throw notSound(file, `${first}${more.length === 0 ? '' : ` And ${more.length} more.`}`);
    return found.bench.head.seq + found.workshop.head.seq;
  } finally {
    db.close();
  }
};

/** The realm a file was made for; `null`: it is no record. */
export const realmIn = (file: string): Realm | null => {
  const db = openForReading(file);
  try {
    return realmOf(db) as Realm | null;
  } finally {
    db.close();
  }
};

/** Removes what killed runs left unfinished in a folder. */
export const tidy = (folder: string): void => {
  for (const name of namesIn(folder)) if (name.includes(UNFINISHED)) rmSync(join(folder, name), { force: true });
};

export const namesIn = (folder: string): readonly string[] => {
  try {
    return readdirSync(folder);
  } catch (cause) {
    if (codeOf(cause) === 'ENOENT') return [];
    throw cause;
  }
};

export const sync = (path: string): void => {
  const fd = openSync(path, 'r');
  try {
    fsyncSync(fd);
  } finally {
    closeSync(fd);
  }
};

const notCopied = (file: string, detail: string, cause: unknown): StoreProblem =>
  new StoreProblem(
    {
      happened: `The copy ${file} could not be made (${detail}).`,
      kept: 'The record itself is as it was, and earlier copies are kept.',
      todo: 'Make room on the disk, or give the right to write to that folder; it is tried again within the hour.',
    },
    cause,
  );

const notSound = (file: string, finding: string): StoreProblem =>
  new StoreProblem({
    happened: `The copy ${file} is not sound: ${finding}`,
    kept: 'The record itself was not touched, and earlier copies are kept.',
    todo: 'Have the record checked on its page, and look at the disk.',
  });
