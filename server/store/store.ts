import type { InstrumentConfig } from '#lib/measure/instrument';
import type { BarsList, BarsRow } from '#lib/protocol/bars';
import type { BatchFind } from '#lib/protocol/find';
import type { BatchList, BatchListRow } from '#lib/protocol/http';
import type { Journal, JournalLine } from '#lib/record/journal';
import type { Head } from '#lib/record/seal';
import type { Break } from '#lib/record/verify';
import type { BatchId, EntryId, InstrumentId, PersonId } from '#lib/units/id';
import type { MassUnit } from '#lib/units/mass';
import type { Clock } from '#lib/units/time';
import type { Realm } from '#lib/work/batch/index';
import type { DirectoryLock } from './lock';
import type { People } from './people';
import type { RecordProof } from './proof-store';
import type { WorkshopShelf } from './shelf';
import type { StoreLog } from './store-log';

export type { StoreLog } from './store-log';

export interface StoreOptions {
  /** The data directory; made when it is not there. */
  readonly dir: string;
  /** One file per realm: practice can never stand in the real one. */
  readonly realm: Realm;
  readonly clock: Clock;
  readonly log: StoreLog;
  /** Random bytes for salts and ids; the system's when not given. */
  readonly random?: (bytes: number) => Uint8Array;
  /** A lock held already, for a program that opens two realms of one directory. Without one the store takes and releases its own. */
  readonly lock?: DirectoryLock;
  /** Nothing of it counts before it is whole and whoever makes it has synced the file: no commit waits for the disk. */
  readonly apart?: true;
}

/**
 * The record of one workshop in one realm: two sealed journals in one SQLite file, so that what concerns both commits at once.
 * The chains carry everything the store cannot lose, the set limits of instruments and plans among it, so a changed limit is
 * found as a changed line is.
 */
export interface Store {
  readonly realm: Realm;
  /** Where the file is, to be shown. */
  readonly file: string;
  /** Batches: what was decided and weighed. */
  readonly bench: Journal;
  /** Instruments, people, settings, formulas and stores. Written through `settings` and `shelf`. */
  readonly workshop: Journal;
  /** One line of the bench journal by its entry's id; `null`: there is none. */
  entry(id: EntryId): Promise<JournalLine | null>;
  readonly settings: WorkshopSettings;
  readonly shelf: WorkshopShelf;
  readonly proof: RecordProof;
  /** Nothing beside the file tells where it ended: it was put here from elsewhere, and the record it is of may have gone on. */
  readonly copied: boolean;
  /** Told once a batch has ended or an ended one was put right, after the commit that says so. */
  ended(listener: () => void): void;
  readonly blobs: {
    /** Bytes by their SHA-256 (hex), hashed again on the way out; `null` when they are not kept (pruned). Throws `StoreProblem` when they changed. */
    get(sha256: string): Promise<Uint8Array | null>;
  };
  readonly batches: {
    /** Newest first, of one status or of any; `before` is the `next` of the page before. */
    list(page: {
      readonly before: string | null;
      readonly limit: number;
      readonly status?: BatchListRow['status'] | null;
      readonly find?: BatchFind;
    }): Promise<BatchList>;
    /** Names of all formulas a batch was ever begun with, in the order of the alphabet. */
    formulas(): Promise<readonly string[]>;
    get(batch: BatchId): Promise<BatchListRow | null>;
  };
  /** The newest check of each scale in any batch, by its entry. */
  checks(): Readonly<Record<InstrumentId, EntryId>>;
  readonly bars: {
    /** Newest first; `before` is the `next` of the page before. */
    list(page: { readonly before: string | null; readonly limit: number }): Promise<BarsList>;
    /** Those still in their moulds, curing, on the shelf or at a market; newest first. */
    open(): Promise<readonly BarsRow[]>;
    /** Of one batch, in the order they were begun. */
    of(batch: BatchId): Promise<readonly BarsRow[]>;
    /** Of which something went to an order or a market, those that are gone among them. */
    serving(): Promise<readonly BarsRow[]>;
    /** Of which something was wrapped, those that are gone among them. */
    wrapped(): Promise<readonly BarsRow[]>;
    /** Of which a wrapping was crossed out. */
    onceWrapped(): Promise<readonly BarsRow[]>;
  };
  /** Lots as the rows of batches have them. */
  readonly lots: {
    /** What was taken of each, mg, by its id. */
    used(): Promise<ReadonlyMap<string, number>>;
    /** Batches it is in, newest first. */
    batches(lot: string): Promise<readonly BatchListRow[]>;
    /** Batches whose record named it until somebody put another right, newest first. */
    once(lot: string): Promise<readonly BatchListRow[]>;
    /** Batches that bear a mark, newest first: one, unless marks were given twice. */
    marked(mark: string): Promise<readonly BatchListRow[]>;
  };
  health(): StoreHealth;
  /** Checks the whole file again: structure, both chains, and what was derived from them. Writes nothing. */
  verify(): Promise<Verification>;
  /** Drops what is derived from the lines and replays it. */
  rebuild(): Promise<void>;
  close(): Promise<void>;
}

export interface StoreHealth {
  readonly ok: boolean;
  /** Newest sequence number of the bench journal. */
  readonly seq: number;
  /** What happened, what is kept and what to do, when nothing can be written; `null` when all is well. */
  readonly readOnly: string | null;
  /** Where the file is damaged, in plain sentences: the first twenty places. */
  readonly damage: readonly string[];
}

export interface Verification {
  readonly ok: boolean;
  readonly bench: ChainFinding;
  readonly workshop: ChainFinding;
  /** Damage outside the chains: structure of the file, answers, names, blobs, derived rows. Plain sentences. */
  readonly file: readonly string[];
  /** Lines of the bench journal whose text was withdrawn: their leaves hold, what they said is gone. */
  readonly withdrawn: readonly number[];
}
export interface ChainFinding {
  readonly head: Head;
  readonly breaks: readonly Break[];
}

/** Units a screen shows; everything is stored in milligrams and thousandths of a degree. */
export interface ScreenSettings {
  readonly mass: MassUnit;
  readonly temperature: 'C' | 'F';
}

/** What Setup keeps. Every change is a line of the workshop journal; reading is from memory. */
export interface WorkshopSettings extends People {
  instruments(): readonly InstrumentConfig[];
  /** Adds the instrument, or replaces the one with the same id. */
  bindInstrument(config: InstrumentConfig, by: PersonId): Promise<void>;
  unbindInstrument(id: InstrumentId, by: PersonId): Promise<void>;
  screen(): ScreenSettings;
  setScreen(screen: ScreenSettings, by: PersonId): Promise<void>;
  /** Wall time at which the practice bench was left for the real workshop; `null` while it was not. */
  practiceLeft(): number | null;
  leavePractice(by: PersonId): Promise<void>;
}
