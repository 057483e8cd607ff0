import { existsSync, renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { JournalReadOnly } from '#lib/record/journal';
import type { Clock } from '#lib/units/time';
import { sync, UNFINISHED } from '../backup/copy';
import { headsPath } from '../store/heads';
import { openStore } from '../store/open';
import { codeOf, StoreProblem } from '../store/problem';
import type { ProblemText } from '../store/problem';
import type { StoreLog } from '../store/store-log';
import { whereUnwritable } from '../store/words';
import { layOutPast } from './half-year';

export interface FirstStart {
  /** The data folder, there already and locked by whoever asks. */
  readonly dir: string;
  readonly clock: Clock;
  readonly log: StoreLog;
  readonly seed: number;
  /** Left out: the whole half-year. */
  readonly batches?: number;
}

const REALM = 'practice';

/**
 * The practice record with its invented half-year, where none stands yet. It is laid out in a folder of its own and gets its place by one
 * rename: a program that is ended or killed meanwhile leaves no part of it, and the next start begins anew. Whatever stands where the record
 * belongs, an empty one or a damaged one too, is left as it is. Call it before that record is opened. Returns whether one was laid out;
 * throws `StoreProblem`, on a full disk for one, and leaves nothing then.
 */
export const beginWithPast = async ({ dir, clock, log, seed, batches }: FirstStart): Promise<boolean> => {
  const file = join(dir, `${REALM}.sqlite`);
  const apart = join(dir, `${REALM}${UNFINISHED}`);
  const clear = (): void => rmSync(apart, { recursive: true, force: true });
  clear();
  // A log beside a new file would be taken for its own, and a heads file tells of a record that has gone.
  if ([file, `${file}-wal`, `${file}-shm`, headsPath(file)].some((one) => existsSync(one))) return false;
  try {
    const store = await openStore({ dir: apart, realm: REALM, clock, log, apart: true });
    try {
      await layOutPast(store, clock, seed, batches);
    } finally {
      await store.close();
    }
    const whole = join(apart, `${REALM}.sqlite`);
    sync(whole);
    renameSync(whole, file);
    // After it: heads that came first would miss their record, a record without them only has none to be held against.
    renameSync(headsPath(whole), headsPath(file));
    sync(dir);
  } catch (cause) {
    throw cause instanceof JournalReadOnly ? new StoreProblem(notLaidOut(dir, codeOf(cause.cause ?? cause)), cause) : cause;
  } finally {
    clear();
  }
  return true;
};

const notLaidOut = (dir: string, detail: string): ProblemText => ({
  happened: `The invented half-year of the practice bench cannot be written to ${dir} (${detail}).`,
  kept: 'Nothing of it stays there, and what was recorded is kept.',
  todo: `${whereUnwritable(detail)} With --no-past practice begins without it.`,
});
