import { createHash } from 'node:crypto';
import { NotCanonical } from '#lib/record/canonical';
import { JournalReadOnly, RepeatedIntent } from '#lib/record/journal';
import type { Append, Journal, Json, JournalLine } from '#lib/record/journal';
import { sealAll } from '#lib/record/lines';
import { EMPTY, SALT_BYTES } from '#lib/record/seal';
import { verify } from '#lib/record/verify';

/** A journal without a disk, for tests: the same contract, and every line still sealed. */
export class MemoryJournal implements Journal {
  readonly name: string;
  /** Stored bytes by hash. */
  readonly blobs = new Map<string, Uint8Array>();
  readonly #lines: JournalLine[] = [];
  readonly #batchOf: (string | null)[] = [];
  readonly #ids = new Set<string>();
  readonly #answers = new Map<string, string>();
  #salts = 0;
  #stopped: string | null = null;

  constructor(name = 'bench') {
    this.name = name;
  }

  /** From now on every append is refused, as after damage. */
  stop(why: string): void {
    this.#stopped = why;
  }

  seq(): number {
    return this.#lines.length;
  }

  link(): string {
    return this.#lines.at(-1)?.link ?? EMPTY.link;
  }

  async append(what: Append): Promise<readonly JournalLine[]> {
    if (this.#stopped !== null) throw new JournalReadOnly(this.#stopped);
    const lines = sealAll({ seq: this.seq(), link: this.link() }, what.entries, () => this.#salt());
    for (const blob of what.blobs) {
      if (createHash('sha256').update(blob.bytes).digest('hex') !== blob.sha256) throw new NotCanonical('blobs', 'wrong hash');
    }
    if (what.intent !== null) {
      const first = this.#answers.get(what.intent.id);
      if (first !== undefined) throw new RepeatedIntent(JSON.parse(first) as Json);
    }
    this.#refuseTwice(what);
    if (what.intent !== null) this.#answers.set(what.intent.id, JSON.stringify(what.intent.answer));
    for (const blob of what.blobs) this.blobs.set(blob.sha256, Uint8Array.from(blob.bytes));
    for (const entry of what.entries) {
      this.#ids.add(entry.id).add(versionKey(entry));
      this.#batchOf.push(entry.batch);
    }
    this.#lines.push(...lines);
    return lines;
  }

  async lines(after: number, limit: number): Promise<readonly JournalLine[]> {
    return this.#lines.slice(after, after + limit);
  }

  async linesOf(batch: string): Promise<readonly JournalLine[]> {
    return this.#lines.filter((_, i) => this.#batchOf[i] === batch);
  }

  async answerTo(intent: string): Promise<Json | null> {
    const answer = this.#answers.get(intent);
    return answer === undefined ? null : (JSON.parse(answer) as Json);
  }

  /** Every break in the chain: none, unless a test reaches in. */
  breaks(): ReturnType<typeof verify>['breaks'] {
    return verify(this.#lines).breaks;
  }

  #refuseTwice(what: Append): void {
    const seen = new Set<string>();
    for (const key of what.entries.flatMap((entry) => [entry.id, versionKey(entry)])) {
      if (this.#ids.has(key) || seen.has(key)) throw new Error(`stands already: ${key}`);
      seen.add(key);
    }
  }

  #salt(): Uint8Array {
    this.#salts += 1;
    const salt = new Uint8Array(SALT_BYTES);
    new DataView(salt.buffer).setUint32(0, this.#salts);
    return salt;
  }
}

/** One version of one batch stands once; entries without a batch are told apart by id alone. */
const versionKey = ({ id, batch, version }: Append['entries'][number]): string =>
  batch === null ? `no batch ${id}` : `version ${version} of ${batch}`;
