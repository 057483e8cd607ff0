import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { monotonic, wall } from '#lib/units/time';
import type { Clock } from '#lib/units/time';
import type { StoreLog, StoreOptions } from '#server/store/store';

/** A clock that stands still at a known minute. */
export const STILL: Clock = { now: () => monotonic(0), wall: () => wall(1_760_000_000_000), offsetMinutes: () => 120 };

/** A log that keeps what it was told. */
export class KeptLog implements StoreLog {
  readonly said: string[] = [];
  info(_: object, message: string): void {
    this.said.push(`info ${message}`);
  }
  warn(_: object, message: string): void {
    this.said.push(`warn ${message}`);
  }
  error(_: object, message: string): void {
    this.said.push(`error ${message}`);
  }
}

export interface Rig {
  readonly dir: string;
  readonly log: KeptLog;
  readonly options: StoreOptions;
  readonly file: string;
  remove(): void;
}

/** A data directory of its own, to be removed after the test. */
export const storeRig = (): Rig => {
  const dir = mkdtempSync(join(tmpdir(), 'store-'));
  const log = new KeptLog();
  return {
    dir,
    log,
    options: { dir, realm: 'practice', clock: STILL, log },
    file: join(dir, 'practice.sqlite'),
    remove: () => rmSync(dir, { recursive: true, force: true }),
  };
};
