import type { InstrumentConfig } from '#lib/measure/instrument';
import { monotonic, wall } from '#lib/units/time';
import { findingsOf, finish, inspect } from './check';
import { openForReading } from './file';
import { pooledRandom } from './random';
import { SqliteStore } from './sqlite-store';
import { Standing } from './standing';

/** What Setup has stored. */
export interface Stored {
  readonly instruments: readonly InstrumentConfig[];
  /** A person has left the practice bench: the stored instruments are the bench's. */
  readonly practiceLeft: boolean;
}

const SILENT = { info: () => undefined, warn: () => undefined, error: () => undefined };
const NO_CLOCK = { now: () => monotonic(0), wall: () => wall(0), offsetMinutes: () => 0 };

/**
 * What Setup stored in the real record, read beside a server that may be running on it: nothing is locked and nothing changed. `null`
 * when nothing can be concluded, because the record is damaged. Throws what the database throws when there is no readable file.
 */
export const peekSettings = (file: string): Stored | null => {
  const db = openForReading(file);
  try {
    const inspection = finish(inspect(db, null, false));
    if (findingsOf(inspection).length > 0) return null;
    const standing = new Standing(file, SILENT, null);
    const parts = { realm: 'real', file, log: SILENT, clock: NO_CLOCK, random: pooledRandom(), release: () => undefined } as const;
    const { settings } = new SqliteStore({ ...parts, db, standing, inspection, heads: null });
    return { instruments: settings.instruments(), practiceLeft: settings.practiceLeft() !== null };
  } finally {
    db.close();
  }
};
