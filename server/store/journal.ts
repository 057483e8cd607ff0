import type Database from 'better-sqlite3';
import { NotCanonical } from '#lib/record/canonical';
import { RepeatedIntent } from '#lib/record/journal';
import type { Append, Journal, Json, JournalLine } from '#lib/record/journal';
import { labelsOf, parsed, sealAll } from '#lib/record/lines';
import { leafOf } from '#lib/record/seal';
import type { Head } from '#lib/record/seal';
import type { Withdrawn } from './proof-fold';
import type { Standing } from './standing';
import { hashOf, NATIVE, sumOf } from './sums';
import { isWhole, prepare, query } from './tables';
import type { JournalName, LineTable, Prepared } from './tables';
import { ANSWER_CHANGED, inWords } from './words';

export interface JournalParts {
  readonly name: JournalName;
  readonly realm: string;
  readonly db: Database.Database;
  readonly standing: Standing;
  readonly salt: () => Uint8Array;
  /** Where the chain ends, as verified. */
  readonly head: Head;
  /** In a damaged file the numbers of the lines that are wrong, which are never handed out; `null` in a sound one. */
  readonly suspect: ReadonlySet<number> | null;
  /** What stands in for the text of a line, once that is withdrawn; left out where none ever is. */
  readonly withdrawn?: (seq: number) => Pick<Withdrawn, 'leaf' | 'stub'> | undefined;
  /** Commits with every append, after its lines. What throws here undoes the append. */
  readonly within: (lines: readonly JournalLine[], what: Append) => void;
  /** Called after every append: `true` when its commit is on disk, `false` when nothing was written. */
  readonly after: (done: boolean) => void;
}

/**
 * One chain of the file. An append runs to its commit without giving way to anything else in this program, so that two never
 * interleave; it is a promise because another store may have to wait.
 */
export class SqliteJournal implements Journal {
  readonly name: JournalName;
  readonly #parts: JournalParts;
  readonly #statements: Statements;
  readonly #commit: (what: Append, lines: readonly JournalLine[], extra: () => void) => void;
  #head: Head;

  constructor(parts: JournalParts) {
    this.name = parts.name;
    this.#parts = parts;
    this.#head = parts.head;
    this.#statements = statementsOf(parts.db, parts.name);
    const inOne = parts.db.transaction((what: Append, lines: readonly JournalLine[], extra: () => void) => {
      this.#write(what, lines);
      parts.within(lines, what);
      extra();
    });
    this.#commit = (what, lines, extra) => inOne.immediate(what, lines, extra);
  }

  seq(): number {
    return this.#head.seq;
  }

  link(): string {
    return this.#head.link;
  }

  async append(what: Append): Promise<readonly JournalLine[]> {
    return this.appendWith(what, () => undefined);
  }

  /** `append`, with one more thing that commits in the same transaction. */
  appendWith(what: Append, extra: () => void): readonly JournalLine[] {
    const { standing, after, salt } = this.#parts;
    return standing.write(() => {
      const lines = sealAll(this.#head, what.entries, salt, NATIVE);
      this.#check(what);
      try {
        this.#commit(what, lines, extra);
      } catch (cause) {
        after(false);
        throw cause;
      }
      const last = lines.at(-1);
      if (last !== undefined) this.#head = { seq: last.seq, link: last.link };
      after(true);
      return lines;
    });
  }

  async lines(after: number, limit: number): Promise<readonly JournalLine[]> {
    return this.linesNow(after, limit);
  }

  /** `lines`, at once: for what is folded while the store opens. */
  linesNow(after: number, limit: number): readonly JournalLine[] {
    return this.#read(() => this.#statements.after.all({ after, limit }));
  }

  async linesOf(batch: string): Promise<readonly JournalLine[]> {
    return this.linesOfNow(batch);
  }

  linesOfNow(batch: string): readonly JournalLine[] {
    return this.#read(() => (this.#parts.suspect === null ? this.#statements.ofBatch.all({ batch }) : this.#searched(batch)));
  }

  /** One line by the id of its entry; `null`: there is none. */
  lineOfNow(id: string): JournalLine | null {
    return this.#read(() => this.#statements.ofId.all({ id }))[0] ?? null;
  }

  /** In a damaged file no index is believed: a line belongs to a batch when its text says so, or what stands beside it does. */
  #searched(batch: string): LineTable[] {
    const all = this.#statements.after.all({ after: 0, limit: -1 });
    return all.filter((line) => line.batch === batch || labelsOf(parsed(line.text))?.batch === batch);
  }

  async answerTo(intent: string): Promise<Json | null> {
    const row = this.#parts.standing.read(() => this.#statements.answerTo.get({ intent }));
    return row === undefined ? null : this.#answer(intent, row);
  }

  /** Every line is hashed again on its way out: what was changed since is never handed on as the record. */
  #read(rows: () => LineTable[]): readonly JournalLine[] {
    return this.#parts.standing.read(rows).map((row) => {
      const { seq, text, leaf, link } = row;
      const gone = text === '' ? this.#parts.withdrawn?.(seq) : undefined;
      if (gone?.leaf === leaf && !this.#parts.suspect?.has(seq)) return { seq, text: gone.stub, leaf, link, withdrawn: true };
      if (this.#parts.suspect?.has(seq) || !isWhole(row) || leafOf(text, NATIVE) !== leaf) {
        throw this.#parts.standing.found([inWords(this.name, { how: 'changed', seq })]);
      }
      return { seq, text, leaf, link };
    });
  }

  #answer(intent: string, row: { readonly answer: string; readonly sum: string }): Json {
    if (sumOf(intent, row.answer) !== row.sum) throw this.#parts.standing.found([ANSWER_CHANGED]);
    return JSON.parse(row.answer) as Json;
  }

  #check(what: Append): void {
    for (const { value } of what.entries) {
      const realm = (value as { readonly realm?: Json }).realm ?? this.#parts.realm;
      if (realm !== this.#parts.realm) throw new NotCanonical('realm', `only entries of ${this.#parts.realm} have a place here`);
    }
    for (const blob of what.blobs) {
      if (hashOf(blob.bytes) !== blob.sha256) throw new NotCanonical('blobs', `the bytes do not hash to ${blob.sha256}`);
    }
  }

  #write(what: Append, lines: readonly JournalLine[]): void {
    const { insertAnswer, answerTo, insertBlob, insertLine } = this.#statements;
    if (what.intent !== null) {
      const { id: intent } = what.intent;
      const answer = JSON.stringify(what.intent.answer);
      if (insertAnswer.run({ intent, answer, sum: sumOf(intent, answer) }).changes === 0) {
        const first = answerTo.get({ intent });
        throw new RepeatedIntent(first === undefined ? null : this.#answer(intent, first));
      }
    }
    for (const blob of what.blobs) insertBlob.run(blob);
    for (const [at, line] of lines.entries()) {
      const { id = '', batch = null, version = null } = what.entries[at] ?? {};
      insertLine.run({ ...line, id, batch, version });
    }
  }
}

interface Statements {
  readonly insertLine: Prepared<LineTable, unknown>;
  readonly insertAnswer: Prepared<{ intent: string; answer: string; sum: string }, unknown>;
  readonly insertBlob: Prepared<Append['blobs'][number], unknown>;
  readonly answerTo: Prepared<{ intent: string }, { answer: string; sum: string }>;
  readonly after: Prepared<{ after: number; limit: number }, LineTable>;
  readonly ofBatch: Prepared<{ batch: string }, LineTable>;
  readonly ofId: Prepared<{ id: string }, LineTable>;
}

const statementsOf = (db: Database.Database, name: JournalName): Statements => {
  const table = `${name}_lines` as const;
  return {
    insertLine: prepare<LineTable>(db)(({ seq, id, batch, version, text, leaf, link }) =>
      query.insertInto(table).values({ seq, id, batch, version, text, leaf, link }),
    ),
    insertAnswer: prepare<{ intent: string; answer: string; sum: string }>(db)(({ intent, answer, sum }) =>
      query
        .insertInto('answers')
        .values({ intent, answer, sum })
        .onConflict((c) => c.doNothing()),
    ),
    insertBlob: prepare<Append['blobs'][number]>(db)(({ sha256, kind, bytes }) =>
      query
        .insertInto('blobs')
        .values({ sha256, kind, bytes })
        .onConflict((c) => c.doNothing()),
    ),
    answerTo: prepare<{ intent: string }>(db)(({ intent }) =>
      query.selectFrom('answers').select(['answer', 'sum']).where('intent', '=', intent),
    ),
    after: prepare<{ after: number; limit: number }>(db)(({ after, limit }) =>
      query.selectFrom(table).selectAll().where('seq', '>', after).orderBy('seq').limit(limit),
    ),
    ofId: prepare<{ id: string }>(db)(({ id }) => query.selectFrom(table).selectAll().where('id', '=', id)),
    ofBatch: prepare<{ batch: string }>(db)(({ batch }) => query.selectFrom(table).selectAll().where('batch', '=', batch).orderBy('seq')),
  };
};
