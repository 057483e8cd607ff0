import Database from 'better-sqlite3';
import { JournalReadOnly } from '#lib/record/journal';
import { inOneLine, StoreProblem } from './problem';
import type { ProblemText } from './problem';
import type { StoreLog } from './store-log';
import { damaged, diskFull, writeFailed } from './words';

/** The one place that knows whether the record may be written, and why not. Shared by everything that writes to one file. */
export class Standing {
  readonly #file: string;
  readonly #log: StoreLog;
  #stopped: ProblemText | null;
  /** A full disk is tried again at every write. */
  #full: ProblemText | null = null;

  constructor(file: string, log: StoreLog, stopped: ProblemText | null) {
    this.#file = file;
    this.#log = log;
    this.#stopped = stopped;
    if (stopped !== null) log.error({ file }, inOneLine(stopped));
  }

  /** What happened, what is kept, what to do; `null` when writing works. */
  get readOnly(): string | null {
    const problem = this.#stopped ?? this.#full;
    return problem === null ? null : inOneLine(problem);
  }

  /** Where it is damaged, in plain sentences; empty while it is not. */
  get damage(): readonly string[] {
    return this.#stopped?.places ?? [];
  }

  /** Runs a write. After damage or a failed write nothing is tried again before a restart; a full disk is. */
  write<T>(act: () => T): T {
    if (this.#stopped !== null) throw new JournalReadOnly(inOneLine(this.#stopped));
    try {
      const done = act();
      this.#full = null;
      return done;
    } catch (cause) {
      throw this.#judge(cause);
    }
  }

  /** Runs a read; damage found by it stops writing from then on. */
  read<T>(act: () => T): T {
    try {
      return act();
    } catch (cause) {
      if (!(cause instanceof Database.SqliteError)) throw cause;
      throw new StoreProblem(this.#stop(damaged(this.#file, [`Reading failed (${cause.code}).`])), cause);
    }
  }

  /** Something read back is not what was written: nothing is written from now on. Returns what to throw. */
  found(findings: readonly string[]): StoreProblem {
    return new StoreProblem(this.#stop(damaged(this.#file, findings)));
  }

  #judge(cause: unknown): unknown {
    if (!(cause instanceof Database.SqliteError)) return cause;
    const code = cause.code;
    // The caller's mistake (an id or a version that stands already): nothing was written and nothing is wrong with the file.
    if (code.startsWith('SQLITE_CONSTRAINT')) return cause;
    if (code === 'SQLITE_FULL') {
      this.#full = diskFull(this.#file);
      this.#log.error({ err: cause }, inOneLine(this.#full));
      return new JournalReadOnly(inOneLine(this.#full), cause);
    }
    const damage = code.startsWith('SQLITE_CORRUPT') || code === 'SQLITE_NOTADB';
    const problem = damage ? damaged(this.#file, [`Writing failed (${code}).`]) : writeFailed(this.#file, code);
    return new JournalReadOnly(inOneLine(this.#stop(problem)), cause);
  }

  #stop(problem: ProblemText): ProblemText {
    if (this.#stopped === null) {
      this.#stopped = problem;
      this.#log.error({ file: this.#file }, inOneLine(problem));
    }
    return problem;
  }
}
