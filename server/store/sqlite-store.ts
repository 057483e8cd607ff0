import type Database from 'better-sqlite3';
import type { JournalLine } from '#lib/record/journal';
import { SALT_BYTES } from '#lib/record/seal';
import type { Head } from '#lib/record/seal';
import type { EntryId, InstrumentId } from '#lib/units/id';
import type { Clock } from '#lib/units/time';
import type { EntryKind, Realm } from '#lib/work/batch/index';
import { derivedBars, storedBars } from './bars';
import { derivedBatches, storedBatches } from './batches';
import { derivedLotUse, storedLotUse } from './lot-use';
import { finish, inspect } from './check';
import type { Inspection } from './check';
import { Checking } from './checking';
import type { Heads, HeadsFile } from './heads';
import { SqliteJournal } from './journal';
import { derivedChecks, storedChecks } from './project-checks';
import { replaceRows, StreamRows } from './rows';
import type { Standing } from './standing';
import type { Store, StoreHealth, StoreLog, Verification, WorkshopSettings } from './store';
import { isNamed } from './sums';
import { prepare, query } from './tables';
import type { Prepared } from './tables';
import { bytesChanged } from './words';
import type { RecordProof } from './proof-store';
import type { WorkshopShelf } from './shelf';
import { openWorkshopJournal } from './workshop';

export interface StoreParts {
  readonly realm: Realm;
  readonly file: string;
  readonly log: StoreLog;
  readonly clock: Clock;
  readonly random: (bytes: number) => Uint8Array;
  readonly db: Database.Database;
  readonly standing: Standing;
  /** What the look at the file before opening it found. */
  readonly inspection: Inspection;
  /** `null` when the file is only read. */
  readonly heads: HeadsFile | null;
  /** See `Store`. */
  readonly copied?: boolean;
  readonly release: () => void;
}

/** Entries that end a batch, or put one right that has ended. */
const ENDS: ReadonlySet<string> = new Set<EntryKind>(['closed', 'abandoned', 'amended', 'photo-kept']);

/** The store over one open connection, writing or reading only. */
export class SqliteStore implements Store {
  readonly realm: Realm;
  readonly file: string;
  readonly bench: SqliteJournal;
  readonly workshop: SqliteJournal;
  readonly settings: WorkshopSettings;
  readonly shelf: WorkshopShelf;
  readonly proof: RecordProof;
  readonly copied: boolean;
  readonly blobs: Store['blobs'];
  readonly batches: Store['batches'];
  readonly lots: Store['lots'];
  readonly bars: Store['bars'];
  readonly #checks: Store['checks'];
  readonly #parts: StoreParts;
  readonly #checking: Checking;
  readonly #atEnd: (() => void)[] = [];

  constructor(parts: StoreParts) {
    const { db, standing, realm, clock, random, inspection, heads } = parts;
    this.#parts = parts;
    this.realm = realm;
    this.file = parts.file;
    const rows = new StreamRows(db, (stream) => this.bench.linesOfNow(stream));
    const salt = (): Uint8Array => random(SALT_BYTES);
    const headsNow = (): Heads => ({ bench: headOf(this.bench), workshop: headOf(this.workshop) });
    const keepHeads = (): void => heads?.note(headsNow());
    let ending = false;
    this.bench = new SqliteJournal({
      name: 'bench',
      realm,
      db,
      standing,
      salt,
      head: inspection.bench.head,
      suspect: heads === null ? inspection.suspect.bench : null,
      withdrawn: (seq) => this.proof.withdrawnAt(seq),
      within: (lines, what) => {
        rows.within(lines, what);
        ending = what.entries.some(({ kind }) => ENDS.has(kind));
      },
      after: (done) => {
        rows.settle(done);
        if (!done) return;
        keepHeads();
        if (ending) for (const listener of this.#atEnd) listener();
      },
    });
    this.workshop = new SqliteJournal({
      name: 'workshop',
      realm,
      db,
      standing,
      salt,
      head: inspection.workshop.head,
      suspect: heads === null ? inspection.suspect.workshop : null,
      within: () => undefined,
      after: (done) => {
        if (done) keepHeads();
      },
    });
    const { settings, shelf, proof } = openWorkshopJournal({
      db,
      journal: this.workshop,
      standing,
      realm,
      clock,
      random,
      forget: (batch, seq, stub) => rows.forget(batch, (at) => (at === seq ? stub : (this.proof.withdrawnAt(at)?.stub ?? ''))),
    });
    this.settings = settings;
    this.shelf = shelf;
    this.proof = proof;
    this.copied = parts.copied ?? false;
    this.batches = heads === null ? derivedBatches(inspection.rows.batches) : storedBatches(db, standing);
    this.#checks = heads === null ? derivedChecks(inspection.rows) : storedChecks(db, standing);
    this.lots = heads === null ? derivedLotUse(inspection.rows) : storedLotUse(db, standing);
    this.bars = heads === null ? derivedBars(inspection.rows) : storedBars(db, standing);
    const bytesOf = prepare<{ sha256: string }>(db)(({ sha256 }) => query.selectFrom('blobs').select('bytes').where('sha256', '=', sha256));
    this.blobs = { get: async (sha256) => checkedBytes(standing, bytesOf, sha256) };
    this.#checking = new Checking({ db, file: parts.file, standing, log: parts.log, heads: headsNow });
    keepHeads();
    if (!inspection.whole && heads !== null) this.#checking.inBackground();
  }

  ended(listener: () => void): void {
    this.#atEnd.push(listener);
  }

  async entry(id: EntryId): Promise<JournalLine | null> {
    return this.bench.lineOfNow(id);
  }

  checks(): Readonly<Record<InstrumentId, EntryId>> {
    return this.#checks();
  }

  health(): StoreHealth {
    const { readOnly, damage } = this.#parts.standing;
    return { ok: readOnly === null, seq: this.bench.seq(), readOnly, damage };
  }

  async verify(): Promise<Verification> {
    return this.#checking.verify();
  }

  async rebuild(): Promise<void> {
    const { db, standing } = this.#parts;
    standing.write(() => replaceRows(db, finish(inspect(db, null, false)).rows));
  }

  async close(): Promise<void> {
    const { db, heads, release } = this.#parts;
    if (!db.open) return;
    this.#checking.stop();
    if (heads !== null && this.health().ok) db.pragma('wal_checkpoint(TRUNCATE)');
    db.close();
    heads?.close();
    release();
  }
}

const headOf = (journal: SqliteJournal): Head => ({ seq: journal.seq(), link: journal.link() });

const checkedBytes = (
  standing: Standing,
  bytesOf: Prepared<{ sha256: string }, { bytes: Uint8Array }>,
  sha256: string,
): Uint8Array | null => {
  const row = standing.read(() => bytesOf.get({ sha256 }));
  if (row === undefined) return null;
  if (!isNamed({ sha256, bytes: row.bytes })) throw standing.found([bytesChanged(sha256)]);
  return new Uint8Array(row.bytes);
};
