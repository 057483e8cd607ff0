import type Database from 'better-sqlite3';
import { setImmediate } from 'node:timers/promises';
import { runApart } from '../apart';
import type { Apart } from '../apart';
import { findingsOf, inspect, WHOLE_UP_TO } from './check';
import type { Checked } from './check';
import type { Heads } from './heads';
import type { Standing } from './standing';
import type { StoreLog, Verification } from './store';

interface CheckingParts {
  readonly db: Database.Database;
  readonly file: string;
  readonly standing: Standing;
  readonly log: StoreLog;
  /** Where both journals stand now. */
  readonly heads: () => Heads;
  /** A record of more lines is looked at in a process of its own. */
  readonly wholeUpTo?: number;
}

/** Looks at the whole file while the program runs: a small record page by page between other work, a large one in a process apart. */
export class Checking {
  readonly #parts: CheckingParts;
  #apart: Apart<Checked> | null = null;
  #stopped = false;

  constructor(parts: CheckingParts) {
    this.#parts = parts;
  }

  /** Damage stops writing. Throws when the look itself could not be had. */
  async verify(): Promise<Verification> {
    const { heads, standing, log, file, wholeUpTo = WHOLE_UP_TO } = this.#parts;
    const {
      bench,
      workshop,
      file: wrong,
      withdrawn,
      rowsStale,
    } = heads().bench.seq > wholeUpTo ? await this.#beside() : await this.#here();
    const findings = findingsOf({ bench, workshop, file: wrong });
    if (findings.length > 0) standing.found(findings);
    if (rowsStale) log.warn({ file }, 'a list is not what follows from the record: "npm run rebuild" makes it anew');
    return { ok: findings.length === 0, bench, workshop, file: wrong, withdrawn };
  }

  stop(): void {
    this.#stopped = true;
    this.#apart?.stop();
  }

  /** The same for a look that nobody waits for. */
  inBackground(): void {
    const { log, file } = this.#parts;
    this.verify().then(
      ({ ok }) => log.info({ file, ok }, 'the whole record was looked at'),
      (cause: unknown) => {
        if (!this.#stopped) log.error({ err: cause, file }, 'the whole record could not be looked at');
      },
    );
  }

  async #here(): Promise<Checked> {
    const looking = inspect(this.#parts.db, this.#parts.heads(), true);
    let at = looking.next();
    while (!at.done) {
      await setImmediate();
      at = looking.next();
    }
    return at.value;
  }

  async #beside(): Promise<Checked> {
    const apart = runApart<Checked>('check', [this.#parts.file]);
    this.#apart = apart;
    const told = await apart.told;
    if (typeof told === 'string') throw new Error(`the check broke off: ${told.split('\n')[0] ?? ''}`);
    return told;
  }
}
