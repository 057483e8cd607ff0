import type Database from 'better-sqlite3';
import type { Entry } from '#lib/work/batch/index';
import { as } from '#lib/units/id';
import type { EntryId } from '#lib/units/id';
import type { Standing } from './standing';
import type { Store } from './store';
import { prepare, query } from './tables';

/** The newest check of one scale against a known mass. */
export interface CheckedScale {
  readonly instrument: string;
  readonly seq: number;
  readonly entry: string;
}

/** What an entry says of a scale's check; `null` for any other. */
export const checkIn = (seq: number, entry: Pick<Entry, 'id' | 'kind' | 'body'>): CheckedScale | null =>
  entry.kind === 'scale-checked'
    ? { instrument: (entry as { readonly body: { readonly instrument: string } }).body.instrument, seq, entry: entry.id }
    : null;

export const putCheck = (db: Database.Database): ((check: CheckedScale) => void) => {
  const put = prepare<CheckedScale>(db)(({ instrument, seq, entry }) =>
    query
      .insertInto('scale_checks')
      .values({ instrument, seq, entry })
      .onConflict((c) => c.column('instrument').doUpdateSet({ seq, entry })),
  );
  return (check) => void put.run(check);
};

type Checks = Store['checks'];
const byInstrument = (checks: Iterable<CheckedScale>): ReturnType<Checks> =>
  Object.fromEntries([...checks].map(({ instrument, entry }) => [instrument, as<EntryId>(entry)]));

/** The newest check of each scale as committed with the entries. */
export const storedChecks = (db: Database.Database, standing: Standing): Checks => {
  const all = prepare<object>(db)(() => query.selectFrom('scale_checks').select(['instrument', 'seq', 'entry']));
  return () => byInstrument(standing.read(() => all.all({})));
};

/** The same as it follows from the lines that could be read: for a damaged file. */
export const derivedChecks =
  ({ checks }: { readonly checks: ReadonlyMap<string, CheckedScale> }): Checks =>
  () =>
    byInstrument(checks.values());
