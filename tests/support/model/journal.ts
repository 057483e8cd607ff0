import { JournalReadOnly } from '#lib/record/journal';
import type { Append, Journal, JournalLine } from '#lib/record/journal';
import { MemoryJournal } from '../memory-journal';

/**
 * How the disk behaves. `late`: an append is written only when the disk comes back; `unacknowledged`: written at once, but nobody hears of it
 * before; `fails` and `read-only`: nothing is written and the append is rejected.
 */
export type DiskMode = 'prompt' | 'late' | 'unacknowledged' | 'fails' | 'read-only';

/** More appends than this without time going by are a bench that answers itself for ever. */
const RUNAWAY = 100;

/** Thrown by a disk told to fail. */
export class DiskFull extends Error {}

/** One disk for all boots of a run: a journal in memory that is slow, fails, and outlives whoever writes to it. */
export class ModelDisk {
  readonly kept = new MemoryJournal();
  /** Every append that was written: its intent, and the number of its last line. */
  readonly appends: { readonly intent: string | null; readonly ids: readonly string[]; readonly to: number }[] = [];
  mode: DiskMode = 'prompt';
  /** It was written to without end, and stopped answering. */
  overrun = false;
  readonly #now: () => number;
  #burst = { at: -1, appends: 0 };
  #waiting: (() => void)[] = [];
  #live = 0;

  constructor(now: () => number) {
    this.#now = now;
  }

  /** The disk as one boot has it. After `crash` it neither writes nor answers. */
  open(): Journal {
    this.#live += 1;
    const mine = this.#live;
    const { kept } = this;
    return {
      name: kept.name,
      seq: () => kept.seq(),
      link: () => kept.link(),
      lines: (after, limit) => kept.lines(after, limit),
      linesOf: (batch) => kept.linesOf(batch),
      answerTo: (intent) => kept.answerTo(intent),
      append: (what) => (mine === this.#live ? this.#append(what) : new Promise(() => {})),
    };
  }

  /** Whether an append waits for the disk. */
  get busy(): boolean {
    return this.#waiting.length > 0;
  }

  /** The disk is back: what waits is written or acknowledged. */
  goOn(): void {
    for (const run of this.#waiting.splice(0)) run();
  }

  /** Power off: what was not written never will be, and nobody who waited hears anything. */
  crash(): void {
    this.#live += 1;
    this.#waiting = [];
    this.mode = 'prompt';
  }

  #append(what: Append): Promise<readonly JournalLine[]> {
    this.#burst =
      this.#burst.at === this.#now() ? { at: this.#burst.at, appends: this.#burst.appends + 1 } : { at: this.#now(), appends: 1 };
    if (this.#burst.appends > RUNAWAY) {
      this.overrun = true;
      return new Promise(() => {});
    }
    if (this.mode === 'fails') return Promise.reject(new DiskFull('the disk is full'));
    if (this.mode === 'read-only') return Promise.reject(new JournalReadOnly('damage was found'));
    if (this.mode === 'prompt') return this.#write(what);
    const written = this.mode === 'unacknowledged' ? this.#write(what) : null;
    written?.catch(() => {});
    return new Promise((resolve, reject) => {
      this.#waiting.push(() => void (written ?? this.#write(what)).then(resolve, reject));
    });
  }

  async #write(what: Append): Promise<readonly JournalLine[]> {
    const lines = await this.kept.append(what);
    this.appends.push({ intent: what.intent?.id ?? null, ids: what.entries.map(({ id }) => id), to: this.kept.seq() });
    return lines;
  }
}
