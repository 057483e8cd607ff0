import type { Journal } from '#lib/record/journal';
import type { BatchId, BootId, EntryId, InstrumentId, PersonId, VesselId } from '#lib/units/id';
import type { Clock } from '#lib/units/time';
import type { InstrumentConfig, LinkStatus } from '#lib/measure/instrument';
import type { Reading } from '#lib/measure/reading';
import type { ForecastLane } from '#lib/protocol/forecast';
import type { IntentAnswer } from '#lib/protocol/intent';
import type { LiveFrame } from '#lib/protocol/live';
import type { BatchState, Realm, Want } from '#lib/work/batch/index';
import type { AnswerRemedy } from '#lib/work/batch/remedy/index';
import type { BarsBook, BarsRound } from '../bars/round';
import type { ConductorEvent } from '../conductor-types';
import type { Stopped } from '../hand';
import type { Lease } from '../lease';
import type { Mailbox, MailboxParts } from '../mailbox';
import type { Behalf } from './complete';
import type { LotsLeft } from './remedies';
import type { BenchListener } from './types';
import type { StatusOf } from './views';
import type { Corrections, Watch } from './watch';

/** What the heart of a bench is made of; all that is not pure is handed in. */
export interface CoreParts {
  readonly boot: BootId;
  readonly name: string;
  readonly realm: Realm;
  readonly clock: Clock;
  /** Milliseconds since the machine started, suspend included; `null` where the system does not say. */
  readonly up: () => number | null;
  readonly configs: readonly InstrumentConfig[];
  readonly status: StatusOf;
  readonly journal: Journal;
  /** The batch at this bench, folded from the journal. */
  readonly batch: BatchState | null;
  /** Newest check of each scale in any batch of this journal. */
  readonly checks: Readonly<Record<InstrumentId, EntryId>>;
  /** Who leads this bench while nobody has said who they are. */
  readonly person: PersonId;
  /** Pours of this journal that ended by the cue, oldest first. */
  readonly stops?: readonly Stopped[];
  readonly newEntryId: () => EntryId;
  /** Where bars that are weighed here are entered; left out, none are. */
  readonly bars?: BarsBook;
  /** Vessels known to have a probe standing in them. */
  readonly probesInVessel: () => readonly VesselId[];
  /** Works ways out of an over-pour or a stated wrong; left out, nobody does. */
  readonly answerRemedy?: AnswerRemedy;
  /** What is left of each lot by the books of the stores; left out, nobody knows. */
  readonly stock?: LotsLeft;
  /** What decides; left out, the rules of the batch. */
  readonly decide?: NonNullable<MailboxParts['decide']>;
  /** Of probes that were checked; left out, none was. */
  readonly corrections?: Corrections;
  /** Faults that are nobody's at the bench: for the log. */
  readonly trouble: (what: string, error: unknown) => void;
}

/** The heart of a bench: readings, ticks and presses in; commands to the mailbox and frames out. */
export interface Core {
  readonly parts: CoreParts;
  readonly mailbox: Mailbox;
  readonly watch: Watch;
  /** Readings thrown away after a stall, by instrument. */
  discarded(instrument: InstrumentId): number;
  reading(reading: Reading): void;
  status(status: LinkStatus): void;
  /** At least every `LOOP_TICK_MS`. */
  tick(): void;
  frame(): LiveFrame;
  forecast(): ForecastLane | null;
  /** A person says that how this vessel cooled says nothing of how it will. */
  moved(vessel: 'lye' | 'oils'): void;
  /** The conductor hears an event; what it wants is sent on someone's behalf. */
  conduct(event: ConductorEvent, behalf: Behalf): Promise<readonly IntentAnswer[]>;
  send(want: Want, batch: BatchId, behalf: Behalf): Promise<IntentAnswer>;
  /** To a batch that is not at the bench yet. */
  sendTo(batch: BatchState, want: Want, behalf: Behalf): Promise<IntentAnswer>;
  /** To any batch, which does not come to the bench by it. */
  sendAside(batch: BatchId, load: () => Promise<BatchState | null>, want: Want, behalf: Behalf): Promise<IntentAnswer>;
  /** Bars on this bench's scale; `null`: none are weighed here. */
  readonly bars: BarsRound | null;
  /** Of the cue on the screens now. */
  episode(): number;
  lease(): Lease;
  setLease(lease: Lease): void;
  /** Whose hand is on the bench from now on: it is learnt from. */
  ledBy(person: PersonId): void;
  listen(listener: BenchListener): () => void;
}
