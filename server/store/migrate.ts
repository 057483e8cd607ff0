import Database from 'better-sqlite3';
import { sql } from 'kysely';
import { SEARCH_TABLE } from './search-table';
import { prepare, query } from './tables';

/** One step of the schema. Never edited once released: files in the field were made by it. */
export interface Migration {
  readonly name: string;
  readonly up: readonly string[];
}

/** "Potw" in the file's header: a file without it is not ours. */
export const APPLICATION_ID = 0x50_6f_74_77;

const lines = (table: 'bench_lines' | 'workshop_lines'): readonly string[] => [
  query.schema
    .createTable(table)
    .addColumn('seq', 'integer', (c) => c.primaryKey())
    .addColumn('id', 'text', (c) => c.notNull().unique())
    .addColumn('batch', 'text')
    .addColumn('version', 'integer')
    .addColumn('text', 'text', (c) => c.notNull())
    .addColumn('leaf', 'text', (c) => c.notNull())
    .addColumn('link', 'text', (c) => c.notNull())
    .modifyEnd(sql`strict`)
    .compile().sql,
  // Two decisions on the same version of a batch cannot both stand.
  query.schema
    .createIndex(`${table}_of_batch`)
    .unique()
    .on(table)
    .columns(['batch', 'version'])
    .where(sql.ref('batch'), 'is not', null)
    .compile().sql,
];

const table = (name: string) => query.schema.createTable(name).modifyEnd(sql`strict`);

export const MIGRATIONS: readonly Migration[] = [
  {
    name: 'journals',
    up: [
      ...lines('bench_lines'),
      ...lines('workshop_lines'),
      table('answers')
        .addColumn('intent', 'text', (c) => c.primaryKey().notNull())
        .addColumn('answer', 'text', (c) => c.notNull())
        .addColumn('sum', 'text', (c) => c.notNull())
        .compile().sql,
      table('blobs')
        .addColumn('sha256', 'text', (c) => c.primaryKey().notNull())
        .addColumn('kind', 'text', (c) => c.notNull())
        .addColumn('bytes', 'blob', (c) => c.notNull())
        .compile().sql,
      table('people')
        .addColumn('id', 'text', (c) => c.primaryKey().notNull())
        .addColumn('name', 'text', (c) => c.notNull())
        .addColumn('sum', 'text', (c) => c.notNull())
        .compile().sql,
      table('batch_rows')
        .addColumn('batch', 'text', (c) => c.primaryKey().notNull())
        .addColumn('start_seq', 'integer', (c) => c.notNull().unique())
        .addColumn('row', 'text', (c) => c.notNull())
        .compile().sql,
      table('meta')
        .addColumn('name', 'text', (c) => c.primaryKey().notNull())
        .addColumn('value', 'text', (c) => c.notNull())
        .compile().sql,
    ],
  },
  {
    name: 'bars',
    up: [
      table('bars_rows')
        .addColumn('lot', 'text', (c) => c.primaryKey().notNull())
        .addColumn('start_seq', 'integer', (c) => c.notNull().unique())
        .addColumn('done', 'integer', (c) => c.notNull())
        .addColumn('row', 'text', (c) => c.notNull())
        .compile().sql,
      query.schema.createIndex('bars_rows_by_done').on('bars_rows').columns(['done', 'start_seq']).compile().sql,
    ],
  },
  {
    name: 'search',
    up: [
      table('batch_index')
        .addColumn('start_seq', 'integer', (c) => c.primaryKey())
        .addColumn('started', 'integer', (c) => c.notNull())
        .addColumn('status', 'text', (c) => c.notNull())
        .addColumn('formula', 'text', (c) => c.notNull())
        .addColumn('deviations', 'integer', (c) => c.notNull())
        .compile().sql,
      query.schema.createIndex('batch_index_by_status').on('batch_index').columns(['status', 'start_seq']).compile().sql,
      query.schema.createIndex('batch_index_by_formula').on('batch_index').columns(['formula', 'start_seq']).compile().sql,
      table('scale_checks')
        .addColumn('instrument', 'text', (c) => c.primaryKey().notNull())
        .addColumn('seq', 'integer', (c) => c.notNull())
        .addColumn('entry', 'text', (c) => c.notNull())
        .compile().sql,
      ...SEARCH_TABLE,
    ],
  },
];

const MIGRATIONS_TABLE = table('migrations')
  .ifNotExists()
  .addColumn('version', 'integer', (c) => c.primaryKey())
  .addColumn('name', 'text', (c) => c.notNull())
  .addColumn('applied_wall', 'integer', (c) => c.notNull())
  .compile().sql;

/** Schema version of a file; 0 before the first migration. */
export const schemaVersion = (db: Database.Database): number => {
  const made = db.prepare("select count(*) from sqlite_schema where name = 'migrations'").pluck().get();
  return made === 0 ? 0 : Number(db.prepare('select coalesce(max(version), 0) from migrations').pluck().get());
};

/**
 * Brings the schema up to date and returns the version it came from. Looking and changing are one immediate transaction: of
 * two programs that start at once the second waits, then finds nothing to do. `backUp` runs before, outside the transaction,
 * when a file with data is about to change.
 */
export const migrate = (
  db: Database.Database,
  wall: number,
  backUp: (from: number) => void,
  migrations: readonly Migration[] = MIGRATIONS,
): number => {
  const before = schemaVersion(db);
  if (before >= migrations.length) return before;
  if (before > 0) backUp(before);
  const bringUp = db.transaction((): number => {
    db.exec(MIGRATIONS_TABLE);
    const from = schemaVersion(db);
    const note = prepare<{ version: number; name: string; wall: number }>(db)((given) =>
      query.insertInto('migrations').values({ version: given.version, name: given.name, applied_wall: given.wall }),
    );
    for (const [at, migration] of migrations.entries()) {
      if (at < from) continue;
      for (const statement of migration.up) db.exec(statement);
      note.run({ version: at + 1, name: migration.name, wall });
    }
    if (from === 0) db.pragma(`application_id = ${APPLICATION_ID}`);
    return from;
  });
  return bringUp.immediate();
};

/** Everything the schema of a file says of itself. */
export const schemaText = (db: Database.Database): string =>
  db
    .prepare("select type || ' ' || name || ' ' || tbl_name || ' ' || coalesce(sql, '') from sqlite_schema order by name")
    .pluck()
    .all()
    .join('\n');

/** The same text as the migrations up to a version make it, to hold a file against. */
export const expectedSchema = (version: number): string => {
  const db = new Database(':memory:');
  migrate(db, 0, () => undefined, MIGRATIONS.slice(0, version));
  const text = schemaText(db);
  db.close();
  return text;
};
