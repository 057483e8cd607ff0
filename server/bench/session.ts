import { readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Clock } from '#lib/units/time';

/** What is remembered of the last run: when it began, and when it was stopped. `stopped` null: it did not get to say. */
interface Session {
  readonly boot: string;
  readonly started: number;
  readonly stopped: number | null;
}

export interface SessionMark {
  /** The run before this one ended without being stopped: killed, crashed, or the power went. */
  readonly brokenOff: boolean;
  stopped(): void;
}

/**
 * Marks the beginning of a run in the data folder, and its end when it is stopped. Says nothing about the record, which needs no such
 * mark: on a full disk there is none, and that is all.
 */
export const markSession = (folder: string, boot: string, clock: Pick<Clock, 'wall'>): SessionMark => {
  const path = join(folder, 'last-run.json');
  const before = read(path);
  const started = clock.wall();
  const write = (session: Session): void => {
    try {
      writeFileSync(`${path}.new`, JSON.stringify(session));
      renameSync(`${path}.new`, path);
    } catch {
      // The next run then knows less of this one, and nothing else.
    }
  };
  write({ boot, started, stopped: null });
  return {
    brokenOff: before !== null && before.stopped === null,
    stopped: () => write({ boot, started, stopped: clock.wall() }),
  };
};

const read = (path: string): Session | null => {
  try {
    return JSON.parse(readFileSync(path, 'utf8')) as Session;
  } catch {
    return null;
  }
};
