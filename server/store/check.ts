import type Database from 'better-sqlite3';
import { parsed } from '#lib/record/lines';
import { EMPTY } from '#lib/record/seal';
import type { Head } from '#lib/record/seal';
import { deriving, NO_ROWS, sameRows } from './derived-rows';
import type { DerivedRows, LinesBefore } from './derived-rows';
import type { Heads } from './heads';
import type { JournalName } from './tables';
import { ProofFold } from './proof-fold';
import type { ChainFinding } from './store';
import { signatureFindings } from './signatures';
import { isNamed, sumOf } from './sums';
import { prepare, query } from './tables';
import { cannotRead, PAGE, walk } from './walk';
import type { Pausing, Walked } from './walk';
import { ANSWER_CHANGED, bytesChanged, inWords } from './words';

/** What a whole look at the file found. */
export interface Inspection {
  readonly bench: ChainFinding;
  readonly workshop: ChainFinding;
  /** Damage outside the chains, in plain sentences. */
  readonly file: readonly string[];
  /** Lines of the bench journal whose text was withdrawn, and which are proven by their leaf alone. */
  readonly withdrawn: readonly number[];
  /** Everything was looked at; else the newest lines only, and the rest is still to be. */
  readonly whole: boolean;
  /** Numbers of lines that are not to be trusted, by journal. */
  readonly suspect: Readonly<Record<JournalName, ReadonlySet<number>>>;
  /** The lists of batches and of bars as they follow from the lines. */
  readonly rows: DerivedRows;
  /** The stored lists are others: to be replayed. No damage, since nothing rests on them. */
  readonly rowsStale: boolean;
}

/** What a whole look found, as it is told. */
export type Checked = Pick<Inspection, 'bench' | 'workshop' | 'file' | 'withdrawn' | 'rowsStale'>;

/** Lines of the bench journal that are looked at whole before the start, and in this process; a larger record is looked at apart. */
export const WHOLE_UP_TO = 100_000;

/**
 * Looks at everything and changes nothing. A generator, so that a running program can see to its instruments between two
 * pages; only the structure of the file is checked in one piece, at the beginning. `deep` hashes the blobs as well.
 */
export function* inspect(db: Database.Database, kept: Heads | null, deep: boolean): Pausing<Inspection> {
  const { file, search } = structure(db);
  const { workshop, proof } = yield* walkWorkshop(db, kept);
  file.push(...workshop.wrong, ...signatureFindings(proof, Infinity), ...(yield* unsealed(db)));
  if (deep) file.push(...(yield* blobs(db)));
  const derived = deriving(linesBefore(db, proof));
  // Last, and its end without a pause, so that the rows are held against the lines they were written with.
  const bench = yield* walk(db, 'bench', benchHeads(kept, proof), EMPTY, proof, (seq, value) => derived.take(seq, value));
  file.push(...bench.wrong);
  const suspect = { bench: bench.suspect, workshop: workshop.suspect };
  const withdrawn = [...proof.withdrawn.keys()];
  const { rows } = derived;
  const rowsStale = search || !sameRows(db, rows);
  return { bench: bench.chain, workshop: workshop.chain, file, withdrawn, whole: true, suspect, rows, rowsStale };
}

/**
 * Looks at the workshop journal, and at the bench journal from its newest signed head on that has `lines` lines behind it: for the start
 * of a large record, whose whole is looked at once it runs. `null` without such a head.
 */
export function* inspectRecent(db: Database.Database, kept: Heads | null, lines: number): Pausing<Inspection | null> {
  const { workshop, proof } = yield* walkWorkshop(db, kept);
  const newest = newestLine(db);
  const from = proof.signed.bench.findLast(({ checkpoint }) => checkpoint.seq <= newest - lines)?.checkpoint;
  if (from === undefined) return null;
  const bench = yield* walk(db, 'bench', benchHeads(kept, proof), from, proof, () => undefined);
  const suspect = { bench: bench.suspect, workshop: workshop.suspect };
  const file = [...workshop.wrong, ...signatureFindings(proof, RECENT_HEADS), ...bench.wrong];
  const withdrawn = [...proof.withdrawn.keys()];
  return { bench: bench.chain, workshop: workshop.chain, file, withdrawn, whole: false, suspect, rows: NO_ROWS, rowsStale: false };
}

/** So many signatures of each journal are looked at before the start of a large record. */
const RECENT_HEADS = 20;

/** Number of the newest line of the bench journal. */
export const newestLine = (db: Database.Database): number =>
  Number(db.prepare('select coalesce(max(seq), 0) from bench_lines').pluck().get());

/** The signed heads stand in the workshop journal, which is therefore walked first. */
function* walkWorkshop(db: Database.Database, kept: Heads | null): Pausing<{ workshop: Walked; proof: ProofFold }> {
  const proof = new ProofFold();
  const links = new Map<number, string>();
  const workshop = yield* walk(db, 'workshop', kept === null ? [] : [kept.workshop], EMPTY, null, (seq, value, link) => {
    proof.take(value);
    links.set(seq, link);
  });
  const other = proof.signed.workshop
    .map(({ checkpoint }) => checkpoint)
    .filter(({ seq, link }) => links.has(seq) && links.get(seq) !== link)
    .map(({ seq }) => ({ how: 'other-head', seq }) as const);
  if (other.length === 0) return { workshop, proof };
  const { head, breaks } = workshop.chain;
  const suspect = new Set([...workshop.suspect, ...other.map(({ seq }) => seq)]);
  return { workshop: { ...workshop, chain: { head, breaks: [...breaks, ...other] }, suspect }, proof };
}

const benchHeads = (kept: Heads | null, proof: ProofFold): readonly Head[] => [
  ...proof.signed.bench.map(({ checkpoint }) => checkpoint),
  ...(kept === null ? [] : [kept.bench]),
];

/** Runs an inspection without pauses. */
export const finish = <T>(looking: Pausing<T>): T => {
  for (;;) {
    const at = looking.next();
    if (at.done) return at.value;
  }
};

/** Everything an inspection found wrong, as sentences. */
export const findingsOf = ({ bench, workshop, file }: Pick<Inspection, 'bench' | 'workshop' | 'file'>): readonly string[] => [
  ...bench.breaks.map((found) => inWords('bench', found)),
  ...workshop.breaks.map((found) => inWords('workshop', found)),
  ...file,
];

/** `search`: the index for searching is damaged, on which nothing rests. */
const structure = (db: Database.Database): { readonly file: string[]; readonly search: boolean } => {
  // integrity_check rather than quick_check: only it holds the indexes against the tables, and a batch is read by an index.
  const found = db.pragma('integrity_check(5)') as readonly { readonly integrity_check: string }[];
  const wrong = found.map((row) => row.integrity_check).filter((text) => text !== 'ok');
  return {
    file: wrong.filter((text) => !inSearch(text)).map((text) => `The structure of the file is damaged: ${text}.`),
    search: wrong.some(inSearch),
  };
};

const inSearch = (text: string): boolean => text.includes('batch_search');

/** What stands in for a withdrawn line is folded in its place. */
const linesBefore = (db: Database.Database, { withdrawn }: ProofFold): LinesBefore => {
  const lines = prepare<{ stream: string; seq: number }>(db)(({ stream, seq }) =>
    query.selectFrom('bench_lines').select(['seq', 'text']).where('batch', '=', stream).where('seq', '<', seq).orderBy('seq'),
  );
  return (stream, seq) =>
    lines
      .all({ stream, seq })
      .map((line) => ({ seq: line.seq, value: parsed(line.text === '' ? (withdrawn.get(line.seq)?.stub ?? '') : line.text) }));
};

function* unsealed(db: Database.Database): Pausing<readonly string[]> {
  const wrong: string[] = [];
  const answers = prepare<{ after: string; limit: number }>(db)((given) =>
    query.selectFrom('answers').selectAll().where('intent', '>', given.after).orderBy('intent').limit(given.limit),
  );
  try {
    for (let after = ''; ;) {
      const page = answers.all({ after, limit: PAGE });
      for (const row of page) {
        if (sumOf(row.intent, row.answer) !== row.sum) wrong.push(ANSWER_CHANGED);
      }
      const last = page.at(-1);
      if (last === undefined) break;
      after = last.intent;
      yield;
    }
    for (const row of prepare<object>(db)(() => query.selectFrom('people').selectAll()).all({})) {
      if (sumOf(row.id, row.name) !== row.sum) wrong.push('A name was changed from outside.');
    }
  } catch (cause) {
    wrong.push(cannotRead('The table of answers or of names', cause));
  }
  return wrong;
}

function* blobs(db: Database.Database): Pausing<readonly string[]> {
  const wrong: string[] = [];
  const next = prepare<{ after: string; limit: number }>(db)((given) =>
    query.selectFrom('blobs').select(['sha256', 'bytes']).where('sha256', '>', given.after).orderBy('sha256').limit(given.limit),
  );
  try {
    for (let row = next.get({ after: '', limit: 1 }); row !== undefined; row = next.get({ after: row.sha256, limit: 1 })) {
      if (!isNamed(row)) wrong.push(bytesChanged(row.sha256));
      yield;
    }
  } catch (cause) {
    wrong.push(cannotRead('The table of strips', cause));
  }
  return wrong;
}
