import type Database from 'better-sqlite3';
import { DummyDriver, Kysely, SqliteAdapter, SqliteIntrospector, SqliteQueryCompiler, sql } from 'kysely';
import type { Compilable, RawBuilder } from 'kysely';

export type JournalName = 'bench' | 'workshop';

/** One line of a journal. `id`, `batch` and `version` are what the sealed text says too; the text is the truth. */
export interface LineTable {
  seq: number;
  id: string;
  batch: string | null;
  version: number | null;
  /** RFC 8785 bytes as hashed. TEXT, never a JSON type: nothing may re-serialise it. */
  text: string;
  leaf: string;
  link: string;
}

/** Whether the values of a line have the types of their columns, as they always do in a sound file. */
export const isWhole = ({ text, leaf, link }: LineTable): boolean => [text, leaf, link].every((value) => typeof value === 'string');

/** Rows that no chain seals carry the SHA-256 of their content in `sum`, so that a changed byte is found all the same. */
export interface Tables {
  bench_lines: LineTable;
  workshop_lines: LineTable;
  /** The first answer to an intent, as canonical JSON. */
  answers: { intent: string; answer: string; sum: string };
  /** Strips and other bytes by SHA-256 (hex). */
  blobs: { sha256: string; kind: string; bytes: Uint8Array };
  /** Names apart from entries, because a name may be erased. */
  people: { id: string; name: string; sum: string };
  /** Derived from the bench journal; dropped and replayed at will. `start_seq` orders the list. */
  batch_rows: { batch: string; start_seq: number; row: string };
  /** What the list of batches is narrowed by; derived with it. */
  batch_index: { start_seq: number; started: number; status: string; formula: string; deviations: number };
  /** Full text (FTS5), derived as well. */
  batch_search: { rowid: number; mark: string; formula: string; materials: string; lots: string; notes: string };
  /** The newest check of each scale, by its entry; derived. */
  scale_checks: { instrument: string; seq: number; entry: string };
  /** The same of bar lots; `done` 1: none is left to be sold. */
  bars_rows: { lot: string; start_seq: number; done: number; row: string };
  meta: { name: string; value: string };
  migrations: { version: number; name: string; applied_wall: number };
}

/** Writes typed SQL; runs nothing. Its SQL is prepared once by `prepare`, since Kysely's own driver prepares at every call. */
export const query = new Kysely<Tables>({
  dialect: {
    createAdapter: () => new SqliteAdapter(),
    createDriver: () => new DummyDriver(),
    createIntrospector: (db) => new SqliteIntrospector(db),
    createQueryCompiler: () => new SqliteQueryCompiler(),
  },
});

type Given<P> = { readonly [K in keyof P]: RawBuilder<P[K]> };

export interface Prepared<P, R> {
  run(given: P): Database.RunResult;
  get(given: P): R | undefined;
  all(given: P): R[];
}

/**
 * Compiles and prepares a statement once. `P` names what is bound at each call:
 * `prepare<{ id: string }>(db)((given) => query.selectFrom('people').selectAll().where('id', '=', given.id))`.
 * What is given is bound by place: by name the driver would make every name anew at every call. A query must hold no values of
 * its own.
 */
export const prepare =
  <P extends object>(db: Database.Database) =>
  <R>(build: (given: Given<P>) => Compilable<R>): Prepared<P, R> => {
    const { sql: named, parameters } = build(placeholders as Given<P>).compile();
    if (parameters.length > 0) throw new Error(`a value stands in a statement that is kept: ${named}`);
    const places = [...named.matchAll(NAME)].map(([, name]) => name as keyof P);
    const statement = db.prepare<unknown[], R>(named.replaceAll(NAME, '?'));
    const bound = (given: P): unknown[] => places.map((name) => given[name]);
    return {
      run: (given) => statement.run(...bound(given)),
      get: (given) => statement.get(...bound(given)),
      all: (given) => statement.all(...bound(given)),
    };
  };

const NAME = /@(\w+)/g;
const placeholders = new Proxy({}, { get: (_, name) => sql.raw(`@${String(name)}`) });
