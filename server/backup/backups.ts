import { existsSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { BackupsPage } from '#lib/protocol/export';
import type { Realm } from '#lib/work/batch/index';
import { StoreProblem } from '../store/problem';
import type { StoreLog } from '../store/store';
import { copyApart } from './apart';
import type { Copying } from './apart';
import { namesIn, tidy, UNFINISHED } from './copy';
import { backupName, backupsAmong, outlived } from './names';

const DAY_MS = 24 * 3_600_000;
const LOOK_EVERY_MS = 3_600_000;
/** A start has more to do than this. */
const FIRST_LOOK_MS = 60_000;
const REALMS = ['real', 'practice'] as const satisfies readonly Realm[];

export interface Backups {
  page(): BackupsPage;
  /** Copies every record now; what went wrong is on the page. */
  now(): Promise<void>;
  /** A copy to be sent out, under a name of its own; whoever asked removes it. */
  copyOut(realm: Realm): Promise<string>;
  stop(): Promise<void>;
}

export interface BackupsParts {
  readonly dir: string;
  readonly wall: () => number;
  readonly log: StoreLog;
  readonly copy?: (from: string, to: string) => Copying;
}

/** Copies of each record in a folder beside it: one a day, looked at after writing, the old ones removed by one rule. */
export const startBackups = ({ dir, wall, log, copy = copyApart }: BackupsParts): Backups => {
  const folder = join(dir, 'backups');
  let problem: BackupsPage['problem'] = null;
  let running: Copying | null = null;
  let stopped = false;
  let tail: Promise<void> = Promise.resolve();
  let out = 0;
  tidy(folder);

  const fileOf = (realm: Realm): string => join(dir, `${realm}.sqlite`);
  const inTurn = (act: () => Promise<void>): Promise<void> => {
    tail = tail.then(act, act);
    return tail;
  };
  const make = async (from: string, to: string): Promise<void> => {
    running = copy(from, to);
    try {
      await running.done;
    } finally {
      running = null;
    }
  };
  const keep = async (realm: Realm): Promise<void> => {
    if (stopped || !existsSync(fileOf(realm))) return;
    try {
      await make(fileOf(realm), join(folder, backupName(realm, wall())));
      problem = null;
      for (const { name } of outlived(backupsAmong(namesIn(folder)))) rmSync(join(folder, name), { force: true });
    } catch (cause) {
      if (stopped) return;
      problem = cause instanceof StoreProblem ? { error: cause.happened, kept: cause.kept, todo: cause.todo } : unknown(cause);
      log.error({ err: cause }, 'no copy of the record could be made');
    }
  };
  const isDue = (realm: Realm): boolean => {
    const newest = backupsAmong(namesIn(folder)).find((one) => one.realm === realm);
    return newest === undefined || Math.abs(wall() - newest.wall) >= DAY_MS;
  };
  const look = (): void =>
    void inTurn(async () => {
      for (const realm of REALMS) if (isDue(realm)) await keep(realm);
    });
  const first = setTimeout(look, FIRST_LOOK_MS).unref();
  const every = setInterval(look, LOOK_EVERY_MS).unref();

  return {
    page: () => ({
      folder,
      problem,
      backups: backupsAmong(namesIn(folder)).map(({ name, realm, wall: at }) => ({
        name,
        realm,
        wall: at,
        bytes: sizeOf(join(folder, name)),
      })),
    }),
    now: () =>
      inTurn(async () => {
        for (const realm of REALMS) await keep(realm);
      }),
    async copyOut(realm) {
      out += 1;
      // Never finished by its name: what a killed run leaves of it is removed at the next start.
      const to = join(folder, `sent-${process.pid}-${out}${UNFINISHED}`);
      await inTurn(() => make(fileOf(realm), to));
      return to;
    },
    async stop() {
      stopped = true;
      clearTimeout(first);
      clearInterval(every);
      running?.stop();
      await tail.catch(() => undefined);
      tidy(folder);
    },
  };
};

const sizeOf = (file: string): number => {
  try {
    return statSync(file).size;
  } catch {
    return 0;
  }
};

const unknown = (cause: unknown): NonNullable<BackupsPage['problem']> => ({
  error: `A copy of the record could not be made (${cause instanceof Error ? cause.message : String(cause)}).`,
  kept: 'The record itself is as it was, and earlier copies are kept.',
  todo: 'It is tried again within the hour.',
});
