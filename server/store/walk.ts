import Database from 'better-sqlite3';
import { labelsOf, parsed } from '#lib/record/lines';
import type { Head } from '#lib/record/seal';
import { ChainWalk } from '#lib/record/verify';
import type { Break } from '#lib/record/verify';
import type { JournalName } from './tables';
import type { ProofFold } from './proof-fold';
import type { ChainFinding } from './store';
import { NATIVE } from './sums';
import { isWhole, prepare, query } from './tables';
import type { LineTable } from './tables';

/** Rows handled between two pauses. */
export const PAGE = 200;

/** Work in pieces, so that a running program can see to its instruments between two. */
export type Pausing<T> = Generator<undefined, T>;

/** What a walk along one journal of the file found. */
export interface Walked {
  readonly chain: ChainFinding;
  readonly wrong: readonly string[];
  readonly suspect: ReadonlySet<number>;
}

/**
 * Walks one chain from a head on, and holds what stands beside each line against the line. `each` gets the value of every line that is
 * sound; of a withdrawn one what stands in for it.
 */
export function* walk(
  db: Database.Database,
  journal: JournalName,
  kept: readonly Head[],
  from: Head,
  proof: ProofFold | null,
  each: (seq: number, value: unknown, link: string) => void,
): Pausing<Walked> {
  const chain = new ChainWalk(
    kept.filter(({ seq }) => seq >= from.seq),
    from,
    NATIVE,
  );
  const wrong: string[] = [];
  const mislabelled: number[] = [];
  try {
    for (const { lines, last } of pagesOf(db, journal, from.seq)) {
      for (const line of lines) {
        const gone = line.text === '' ? proof?.withdrawn.get(line.seq) : undefined;
        const sound = chain.take(gone?.leaf === line.leaf ? { ...line, withdrawn: true } : line);
        const value = parsed(gone?.stub ?? line.text);
        if (!agree(line, value)) mislabelled.push(line.seq);
        else if (sound) each(line.seq, value, line.link);
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
export const cannotRead = (what: string, cause: unknown): string => {
  if (!(cause instanceof Database.SqliteError)) throw cause;
  return `${what} cannot be read to its end (${cause.code}).`;
};

function* pagesOf(
  db: Database.Database,
  journal: JournalName,
  from: number,
): Generator<{ readonly lines: readonly LineTable[]; readonly last: boolean }> {
  const page = prepare<{ after: number; limit: number }>(db)((given) =>
    query.selectFrom(`${journal}_lines`).selectAll().where('seq', '>', given.after).orderBy('seq').limit(given.limit),
  );
  let after = from;
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
