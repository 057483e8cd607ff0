import Database from 'better-sqlite3';
import { labelsOf, parsed } from '#lib/record/lines';
import { EMPTY } from '#lib/record/seal';
import { ChainWalk } from '#lib/record/verify';
import type { Break } from '#lib/record/verify';
import type { BatchId } from '#lib/units/id';
import type { Entry } from '#lib/work/batch/index';
import type { Heads } from './heads';
import type { JournalName } from './journal';
import { foldEntry } from './project-batches';
import type { Folded } from './project-batches';
import type { ChainFinding } from './store';
import { isNamed, NATIVE, sumOf } from './sums';
import { isWhole, prepare, query } from './tables';
import type { LineTable } from './tables';
import { ANSWER_CHANGED, bytesChanged, inWords } from './words';

/** What a whole look at the file found. */
export interface Inspection {
  readonly bench: ChainFinding;
  readonly workshop: ChainFinding;
  /** Damage outside the chains, in plain sentences. */
  readonly file: readonly string[];
  /** Numbers of lines that are not to be trusted, by journal. */
  readonly suspect: Readonly<Record<JournalName, ReadonlySet<number>>>;
  /** The list of batches as it follows from the lines. */
  readonly rows: DerivedRows;
  /** The stored list is another one: to be replayed. No damage, since nothing rests on it. */
  readonly rowsStale: boolean;
}
export type DerivedRows = ReadonlyMap<BatchId, { readonly startSeq: number; readonly row: string }>;

/** Rows handled between two pauses. */
const PAGE = 200;

type Pausing<T> = Generator<undefined, T>;

/**
 * Looks at everything and changes nothing. A generator, so that a running program can see to its instruments between two
 * pages; only the structure of the file is checked in one piece, at the beginning. `deep` hashes the blobs as well.
 */
export function* inspect(db: Database.Database, kept: Heads | null, deep: boolean): Pausing<Inspection> {
  const file = structure(db);
  const workshop = yield* walk(db, 'workshop', kept, () => undefined);
  file.push(...workshop.wrong, ...(yield* unsealed(db)));
  if (deep) file.push(...(yield* blobs(db)));
  const folded = new Map<BatchId, Folded>();
  // Last, and its end without a pause, so that the rows are held against the lines they were written with.
  const bench = yield* walk(db, 'bench', kept, (seq, value) => {
    const entry = value as Entry;
    const next = foldEntry(folded.get(entry.batch) ?? null, seq, entry);
    if (next !== null) folded.set(entry.batch, next);
  });
  file.push(...bench.wrong);
  const suspect = { bench: bench.suspect, workshop: workshop.suspect };
  return { bench: bench.chain, workshop: workshop.chain, file, suspect, rows: folded, rowsStale: !sameRows(db, folded) };
}

/** Runs an inspection without pauses. */
export const finish = (looking: Pausing<Inspection>): Inspection => {
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

const structure = (db: Database.Database): string[] => {
  // integrity_check rather than quick_check: only it holds the indexes against the tables, and a batch is read by an index.
  const found = db.pragma('integrity_check(5)') as readonly { readonly integrity_check: string }[];
  const wrong = found.map((row) => row.integrity_check).filter((text) => text !== 'ok');
  return wrong.map((text) => `The structure of the file is damaged: ${text}.`);
};

function* walk(
  db: Database.Database,
  journal: JournalName,
  kept: Heads | null,
  each: (seq: number, value: unknown) => void,
): Pausing<{ chain: ChainFinding; wrong: readonly string[]; suspect: ReadonlySet<number> }> {
  const chain = new ChainWalk(kept === null ? [] : [kept[journal]], EMPTY, NATIVE);
  const wrong: string[] = [];
  const mislabelled: number[] = [];
  try {
    for (const { lines, last } of pagesOf(db, journal)) {
      for (const line of lines) {
        const sound = chain.take(line);
        const value = parsed(line.text);
        if (!agree(line, value)) mislabelled.push(line.seq);
        else if (sound) each(line.seq, value);
      }
      if (!last) yield;
    }
  } catch (cause) {
    wrong.push(cannotRead(`The ${journal} journal`, cause));
  }
  wrong.push(...mislabelled.map((seq) => `What stands beside line ${seq} of the ${journal} journal is not what the line says.`));
  const found = chain.end();
  return { chain: found, wrong, suspect: new Set([...mislabelled, ...found.breaks.filter(isOfOneLine).map(({ seq }) => seq)]) };
}

/** Such a line is there and wrong; of a gap nothing is there. */
const isOfOneLine = ({ how }: Break): boolean => how !== 'missing' && how !== 'short';

/** Damage found while reading is a finding; anything else is a mistake of ours. */
const cannotRead = (what: string, cause: unknown): string => {
  if (!(cause instanceof Database.SqliteError)) throw cause;
  return `${what} cannot be read to its end (${cause.code}).`;
};

function* pagesOf(
  db: Database.Database,
  journal: JournalName,
): Generator<{ readonly lines: readonly LineTable[]; readonly last: boolean }> {
  const page = prepare<{ after: number; limit: number }>(db)((given) =>
    query.selectFrom(`${journal}_lines`).selectAll().where('seq', '>', given.after).orderBy('seq').limit(given.limit),
  );
  let after = 0;
  for (let last = false; !last;) {
    const lines = page.all({ after, limit: PAGE });
    // A page that is not full is the end: whoever waited for an empty one would run after a busy bench for ever.
    last = lines.length < PAGE;
    // Damage can give a value another type than its column: such a line must fail its hash, not the program.
    yield { lines: lines.map((line) => (isWhole(line) ? line : { ...line, text: '' })), last };
    after = lines.at(-1)?.seq ?? after;
  }
}

const agree = (line: LineTable, value: unknown): boolean => {
  const said = labelsOf(value);
  return said !== null && said.id === line.id && said.batch === line.batch && said.version === line.version;
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

const sameRows = (db: Database.Database, rows: DerivedRows): boolean => {
  const stored = prepare<object>(db)(() => query.selectFrom('batch_rows').selectAll()).all({});
  return (
    stored.length === rows.size &&
    stored.every((row) => {
      const derived = rows.get(row.batch as BatchId);
      return derived !== undefined && derived.row === row.row && derived.startSeq === row.start_seq;
    })
  );
};
