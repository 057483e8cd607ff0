import { closeSync, fstatSync, openSync, readSync, writeSync } from 'node:fs';
import type { Head } from '#lib/record/seal';
import type { StoreLog } from './store-log';
import { NATIVE } from './sums';

/** Where both journals stood after the newest commit, kept beside the database. */
export interface Heads {
  readonly bench: Head;
  readonly workshop: Head;
}

/**
 * The heads file. It is written after every commit, never before, and not synced: it can be older than the database, never
 * newer. So a database that ends before it has lost acknowledged lines (a write-ahead log damaged, or left behind when the
 * file was copied), which nothing inside the database can tell. It says nothing against someone who changes both.
 */
export const readHeads = (path: string): Heads | 'none' | 'damaged' => {
  let fd: number;
  try {
    fd = openSync(path, 'r');
  } catch (cause) {
    if ((cause as NodeJS.ErrnoException).code === 'ENOENT') return 'none';
    throw cause;
  }
  try {
    const bytes = new Uint8Array(Math.min(fstatSync(fd).size, 1024));
    readSync(fd, bytes);
    return parse(new TextDecoder().decode(bytes));
  } finally {
    closeSync(fd);
  }
};

/** Beside the record it is of. */
export const headsPath = (file: string): string => file.replace(/\.sqlite$/, '.heads');

/** How many lines they tell of; `null`: nobody can say. */
export const linesIn = (heads: Heads | 'damaged'): number | null => (heads === 'damaged' ? null : heads.bench.seq + heads.workshop.seq);

export class HeadsFile {
  readonly #fd: number;
  readonly #log: StoreLog;
  #noted: Heads | null = null;
  #failed = false;

  constructor(path: string, log: StoreLog) {
    // Not truncated: the text always has the same length, and the old heads stand until the new ones do.
    this.#fd = openSync(path, 'a+');
    closeSync(this.#fd);
    this.#fd = openSync(path, 'r+');
    this.#log = log;
  }

  /** Writes them as soon as whoever waits for the commit has been answered. */
  note(heads: Heads): void {
    if (this.#noted === null) setImmediate(() => this.#write());
    this.#noted = heads;
  }

  close(): void {
    this.#write();
    closeSync(this.#fd);
  }

  #write(): void {
    if (this.#noted === null) return;
    const text = format(this.#noted);
    this.#noted = null;
    try {
      writeSync(this.#fd, text, 0);
    } catch (cause) {
      // An older head is still a true one: nothing stops for this.
      if (!this.#failed) this.#log.warn({ err: cause }, 'the heads file could not be written');
      this.#failed = true;
    }
  }
}

const format = ({ bench, workshop }: Heads): string => {
  const text = `${row('bench   ', bench)}${row('workshop', workshop)}`;
  return `${text}${NATIVE.ofText(text)}\n`;
};
const row = (name: string, head: Head): string => `${name} ${String(head.seq).padStart(16, '0')} ${head.link}\n`;

const ROW = /^(?:bench {3}|workshop) (\d{16}) ([0-9a-f]{64})$/;

const parse = (text: string): Heads | 'damaged' => {
  const [bench = '', workshop = '', sum] = text.split('\n');
  if (NATIVE.ofText(`${bench}\n${workshop}\n`) !== sum) return 'damaged';
  const heads = [bench, workshop]
    .map((line) => ROW.exec(line))
    .map((found) => (found === null ? null : { seq: Number(found[1]), link: found[2] ?? '' }));
  const [benchHead, workshopHead] = heads;
  return benchHead && workshopHead ? { bench: benchHead, workshop: workshopHead } : 'damaged';
};
