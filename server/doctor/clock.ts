import { execFile } from 'node:child_process';
import { readdir, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { fine, note, type Finding } from './finding';

/** Files written so much later than the clock says now mean that it was set back. */
const SLACK_MS = 120_000;

export interface ClockParts {
  readonly now: number;
  /** Minutes east of UTC. */
  readonly offsetMinutes: number;
  readonly dir: string;
  /** Whether a time server keeps the clock right; `null`: the system does not say. */
  readonly synchronised: () => Promise<boolean | null>;
}

/** The clock only labels entries, their order rests on numbers; so a wrong one stops nothing, but it should be put right. */
export async function checkClock({ now, offsetMinutes, dir, synchronised }: ClockParts): Promise<Finding[]> {
  const newest = await newestIn(dir);
  const told = `${new Date(now + offsetMinutes * 60_000).toISOString().slice(0, 16).replace('T', ' ')}, UTC${offsetText(offsetMinutes)}`;
  const remedy = 'Set the clock before weighing: the record’s labels and the cure dates on the bars come from it.';
  const findings =
    newest !== null && newest > now + SLACK_MS
      ? [
          note(
            `The clock says ${told}, but the data folder was last written at ${new Date(newest).toISOString().slice(0, 16)} UTC.`,
            remedy,
          ),
        ]
      : [fine(`The clock says ${told}.`)];
  if ((await synchronised()) === false) {
    findings.push(
      note('No time server keeps the clock right.', '"sudo timedatectl set-ntp true" where there is a network; else check it by hand.'),
    );
  }
  return findings;
}

const two = (n: number): string => String(Math.floor(n)).padStart(2, '0');
const offsetText = (minutes: number): string => `${minutes < 0 ? '−' : '+'}${two(Math.abs(minutes) / 60)}:${two(Math.abs(minutes) % 60)}`;

async function newestIn(dir: string): Promise<number | null> {
  const names = await readdir(dir).catch((): string[] => []);
  const times = await Promise.all(
    names.map((name) =>
      stat(join(dir, name)).then(
        (found) => found.mtimeMs,
        () => 0,
      ),
    ),
  );
  return times.length === 0 ? null : Math.max(...times);
}

/** What systemd says; `null` where there is none. */
export const systemSynchronised = (): Promise<boolean | null> =>
  promisify(execFile)('timedatectl', ['show', '--property=NTPSynchronized', '--value'], { timeout: 2_000 }).then(
    ({ stdout }) => (stdout.trim() === 'yes' ? true : stdout.trim() === 'no' ? false : null),
    () => null,
  );
