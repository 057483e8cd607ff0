import type { Context } from 'hono';
import type { Bench } from '#lib/bench/pipeline/types';
import type { InstrumentConfig, LinkStatus } from '#lib/measure/instrument';
import type { InstrumentsPage, RawFrames } from '#lib/protocol/http';
import type { BatchId, InstrumentId, PersonId } from '#lib/units/id';
import type { Scale } from '#lib/work/formula/index';
import type { Carried } from '#lib/work/shelf/carry';
import type { BatchReview } from '#lib/work/batch/review';
import type { BarsDesk } from '../bars/desk';
import type { Backups } from '../backup/backups';
import type { Plans } from '../bench/plans';
import type { Keeper } from '../proof/keeper';
import type { People } from '../store/people';
import type { Store } from '../store/store';
import type { Log } from '../log';

/** What runs now; another after instruments or realm changed. */
export interface Running {
  readonly bench: Bench;
  readonly store: Store;
  readonly plans: Plans;
  readonly bars: BarsDesk;
  readonly scales: readonly Scale[];
  links(): readonly LinkStatus[];
}

/** Setup of instruments. Every change makes another bench; a batch under way waits there until a person resumes it. */
export interface Setup {
  page(): Promise<InstrumentsPage>;
  raw(id: InstrumentId): RawFrames | null;
  bind(config: InstrumentConfig, by: PersonId): Promise<SetupAnswer>;
  unbind(id: InstrumentId, by: PersonId): Promise<SetupAnswer>;
  /** To the real, empty workshop; `along` is begun there anew first. */
  leavePractice(by: PersonId, along: Carried): Promise<SetupAnswer>;
}

/**
 * `fixed`: the command line says what stands on this bench. `missing`: there is no such instrument, or this is not practice. `port`, `place`:
 * another instrument has it.
 */
export type SetupAnswer = 'done' | 'fixed' | 'missing' | 'port' | 'place';

export interface ApiDeps {
  readonly build: string;
  readonly setup: Setup;
  readonly log: Log;
  running(): Running;
  /** Of the workshop, whichever realm runs. */
  people(): People;
  /** Of the record that runs. */
  keeper(): Keeper;
  /** Copies of the records in their folder. */
  readonly backups: Backups;
  /** The review of one batch, `null` when there is none. */
  reviewOf(batch: BatchId): Promise<BatchReview | null>;
  /** Address with the one-time code, `null` when the server listens on this machine only. */
  tabletAddress(): string | null;
  /** Asked from this machine itself. */
  isHere(c: Context): boolean;
  /** From this machine, or from a screen that was opened with the one-time code. */
  isMaker(c: Context): boolean;
}
