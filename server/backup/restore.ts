import { copyFileSync, constants, existsSync, renameSync, rmSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { Realm } from '#lib/work/batch/index';
import { lockDirectory } from '../store/lock';
import { makeFolder } from '../store/open';
import { codeOf, StoreProblem } from '../store/problem';
import { lookAt, realmIn, sync, UNFINISHED } from './copy';

export interface Restored {
  readonly file: string;
  readonly realm: Realm;
  readonly lines: number;
}

/**
 * Puts a copy of a record into a data folder that has none of its realm. The copy is looked at whole before and after; nothing is ever
 * written over. The record goes on from there under another name and key, which say whose lines it began with.
 * Throws `StoreProblem`.
 */
export const restore = (from: string, dir: string): Restored => {
  const source = resolve(from);
  if (!existsSync(source))
    throw refused(`There is no file ${source}.`, 'Name a copy from the folder of backups, or the .sqlite of an archive.');
  const realm = readable(source, () => realmIn(source));
  if (realm === null) throw refused(`${source} is no record of Potwatch.`, 'Name a copy from the folder of backups.');
  readable(source, () => lookAt(source, null));
  makeFolder(dir);
  const lock = lockDirectory(dir);
  const file = join(resolve(dir), `${realm}.sqlite`);
  const unfinished = `${file}${UNFINISHED}`;
  try {
    for (const there of [file, file.replace(/\.sqlite$/, '.heads')])
      if (existsSync(there)) throw refused(`${there} is there already.`, 'Restore into another folder: --data DIR.');
    rmSync(unfinished, { force: true });
    copyFileSync(source, unfinished, constants.COPYFILE_EXCL);
    sync(unfinished);
    const lines = lookAt(unfinished, null);
    renameSync(unfinished, file);
    sync(resolve(dir));
    return { file, realm, lines };
  } catch (cause) {
    rmSync(unfinished, { force: true });
    throw cause instanceof StoreProblem
      ? cause
      : refused(`The copy could not be put into ${dir} (${codeOf(cause)}).`, 'Make room there.', cause);
  } finally {
    lock.release();
  }
};

const readable = <T>(file: string, read: () => T): T => {
  try {
    return read();
  } catch (cause) {
    throw cause instanceof StoreProblem
      ? cause
      : refused(`${file} cannot be read as a record (${codeOf(cause)}).`, 'Name another copy.', cause);
  }
};

const refused = (happened: string, todo: string, cause?: unknown): StoreProblem =>
  new StoreProblem({ happened, kept: 'Nothing was changed.', todo }, cause);
