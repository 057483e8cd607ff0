import type Database from 'better-sqlite3';
import type { Append } from '#lib/record/journal';
import type { PersonId } from '#lib/units/id';
import type { JournalName } from './tables';
import type { Named, ProofBodies, ProofFold, ProofKind, SignedHead, Stamp, Withdrawn } from './proof-fold';
import type { Standing } from './standing';
import { prepare, query } from './tables';

/** Heads, stamps and withdrawn texts: what the workshop journal says of the proof of both journals. Holds no key and signs nothing. */
export interface RecordProof {
  /** `null` before the first start with a key. */
  named(): Named | null;
  /** Newest signed head; `null` before the first. */
  newest(journal: JournalName): SignedHead | null;
  /** First signed head that has the line in it; `null` while there is none. */
  covering(journal: JournalName, seq: number): SignedHead | null;
  /** Newest signed head that does not have the line in it yet; `null`: none was signed before. */
  before(journal: JournalName, seq: number): SignedHead | null;
  /** Lines of the workshop journal, those about proof apart, that no head has in it. */
  unsigned(): number;
  stampOf(note: string): Stamp | null;
  /** Where stamps are asked for; `null`: nowhere. */
  stampUrl(): string | null;
  withdrawn(): readonly Withdrawn[];
  withdrawnAt(seq: number): Withdrawn | undefined;
  name(named: Named, by: PersonId): Promise<void>;
  keepHeads(notes: readonly string[], by: PersonId): Promise<void>;
  keepStamp(stamp: Stamp, answer: Uint8Array, by: PersonId): Promise<void>;
  setStampUrl(url: string | null, by: PersonId): Promise<void>;
  /**
   * Takes the text of a note out of the record for good; its leaf stays, so that the chain goes on proving what is left. `null`: there is no
   * such note. Copies made before keep it.
   */
  withdraw(entry: string, why: string, by: PersonId): Promise<Withdrawn | null>;
}

type ProofLine = { [K in ProofKind]: { readonly kind: K; readonly body: ProofBodies[K] } }[ProofKind];

export interface ProofParts {
  readonly db: Database.Database;
  readonly standing: Standing;
  readonly fold: ProofFold;
  /** What was said of a batch by a line is no longer found; in the transaction that takes its text. */
  readonly forget: (batch: string, seq: number, stub: string) => void;
  /** One line, what is written beside it in the same transaction, and bytes kept with it. */
  readonly write: (line: ProofLine, by: PersonId, beside?: () => void, blobs?: Append['blobs']) => Promise<void>;
}

/** Only what nothing is folded from may go: a note's own text. */
const STUB_TEXT = '(withdrawn)';

export const openProof = ({ db, standing, fold, write, forget }: ProofParts): RecordProof => {
  const lineOf = prepare<{ id: string }>(db)(({ id }) =>
    query.selectFrom('bench_lines').select(['seq', 'batch', 'text', 'leaf']).where('id', '=', id),
  );
  const blank = prepare<{ seq: number; leaf: string; text: string }>(db)(({ seq, leaf, text }) =>
    query.updateTable('bench_lines').set({ text }).where('seq', '=', seq).where('leaf', '=', leaf),
  );
  return {
    named: () => fold.named(),
    newest: (journal) => fold.signed[journal].at(-1) ?? null,
    covering: (journal, seq) => fold.signed[journal][firstFrom(fold.signed[journal], seq)] ?? null,
    before: (journal, seq) => fold.signed[journal][firstFrom(fold.signed[journal], seq) - 1] ?? null,
    unsigned: () => fold.unsigned(),
    stampOf: (note) => fold.stamps.get(note) ?? null,
    stampUrl: () => fold.stampUrl(),
    withdrawn: () => [...fold.withdrawn.values()],
    withdrawnAt: (seq) => fold.withdrawn.get(seq),
    name: (body, by) => write({ kind: 'journal-named', body }, by),
    keepHeads: (notes, by) => write({ kind: 'head-signed', body: { notes } }, by),
    keepStamp: (body, bytes, by) => write({ kind: 'head-stamped', body }, by, undefined, [{ sha256: body.token, kind: 'stamp', bytes }]),
    setStampUrl: (url, by) => write({ kind: 'stamping-set', body: { url } }, by),
    async withdraw(entry, why, by) {
      const line = standing.read(() => lineOf.get({ id: entry }));
      const stub = line === undefined ? null : stubOf(line.text);
      if (line === undefined || stub === null) return null;
      const body: Withdrawn = { seq: line.seq, leaf: line.leaf, stub, why };
      await write({ kind: 'text-withdrawn', body }, by, () => {
        blank.run({ seq: line.seq, leaf: line.leaf, text: '' });
        if (line.batch !== null) forget(line.batch, line.seq, stub);
      });
      // The write-ahead log still holds the page as it was: copy it back and cut the log.
      standing.write(() => db.pragma('wal_checkpoint(TRUNCATE)'));
      return body;
    },
  };
};

/** Place of the first head that has the line in it; heads only ever grow. */
const firstFrom = (heads: readonly SignedHead[], seq: number): number => {
  let [low, high] = [0, heads.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((heads[middle]?.checkpoint.seq ?? 0) < seq) low = middle + 1;
    else high = middle;
  }
  return low;
};

/** A note without its words; `null` when the line is no note, or is withdrawn already. */
const stubOf = (text: string): string | null => {
  if (text === '') return null;
  const { salt: _salt, ...entry } = JSON.parse(text) as { readonly salt: string; readonly kind: string };
  return entry.kind === 'noted' ? JSON.stringify({ ...entry, body: { text: STUB_TEXT } }) : null;
};
