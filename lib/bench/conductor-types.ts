import type { BootId, InstrumentId, LineId, PersonId, VesselId } from '#lib/units/id';
import type { Milligrams } from '#lib/units/mass';
import type { MilliCelsius } from '#lib/units/temperature';
import type { Monotonic } from '#lib/units/time';
import type { Freshness, MassReading, ProbeUse } from '#lib/measure/reading';
import type { ScaleRole } from '#lib/measure/instrument';
import type { BatchState, Want } from '#lib/work/batch/index';
import type { RemedyAnswer, RemedyFacts } from '#lib/work/batch/remedy/index';
import type { JobKey, Source } from '#lib/work/batch/pouring/types';
import type { LyeSeen } from '#lib/work/batch/heating';
import type { BenchCue } from './cue';
import type { Hand } from './hand';

/** A scale as the bench knows it this moment. */
export interface ScaleView {
  readonly id: InstrumentId;
  readonly role: ScaleRole;
  readonly capacity: Milligrams | null;
  readonly division: Milligrams;
  /** The division as a person said it; `null`: nobody did, and `division` is what it shows just now. Absent: `division` was said. */
  readonly told?: Milligrams | null;
  readonly freshness: Freshness;
  /** Newest reading, whatever its age; the conductor never reads a mass from one that is not fresh. */
  readonly reading: MassReading | null;
  /** Usual interval between frames, ms; `null` until known. */
  readonly period: number | null;
  /** Why its readings are not to be believed just now, although fresh; absent or `null`: nothing known against them. */
  readonly suspect?: string | null;
}

export interface ProbeView {
  readonly use: ProbeUse;
  readonly freshness: Freshness;
  /** `null` unless fresh and not suspect. */
  readonly value: MilliCelsius | null;
  readonly suspect: string | null;
  /** It has said a temperature since the server started; absent: nobody knows. */
  readonly heard?: boolean;
}

export interface BenchView {
  readonly scales: readonly ScaleView[];
  readonly probes: readonly ProbeView[];
  /** A page holds the control lease and its heartbeat is not older than 10 s. */
  readonly leased: boolean;
  /** That page does not show the weight just now; absent: it does. */
  readonly unseen?: boolean;
  /** This boot: a batch last resumed in another one waits for a person. Absent: the boot of the batch's newest entry. */
  readonly boot?: BootId;
  /** What was heard of the lye since it was made; absent or `null`: nothing. */
  readonly lyeSeen?: LyeSeen | null;
  /** The vessel to act on where a forecast says that lye and oils will not meet by themselves; absent or `null`: none says so. */
  readonly neverMeet?: 'lye' | 'oils' | null;
  /** Vessels known to have a probe standing in them; its cable carries part of the weight, so nothing is accepted from one. */
  readonly probesInVessel?: readonly VesselId[];
  /** Ways out as far as they are worked out; absent: nobody works them out here. */
  readonly remedy?: RemedyView;
  /** What is known of the hand that pours: it moves the cue, never a tolerance. */
  readonly hand?: Hand & { readonly person: PersonId };
}

export interface RemedyView {
  /** Of the question; `null`: none was asked. */
  readonly key: string | null;
  /** `null`: not yet. */
  readonly answer: RemedyAnswer | null;
  readonly facts: RemedyFacts;
}

/** The three intents of a touch, a key or a pedal, and the few things a page says besides. */
export type Press = { readonly key: 'go-on' | 'back' | 'silence'; readonly hold: boolean };

export type ConductorEvent =
  | { readonly kind: 'reading'; readonly reading: MassReading }
  | { readonly kind: 'tick' }
  | { readonly kind: 'press'; readonly press: Press }
  /** A card taken by touch. */
  | { readonly kind: 'take'; readonly card: number; readonly code: string; readonly hold: boolean }
  /** Anything after which a gross weight means nothing: everything volatile is dropped. */
  | {
      readonly kind: 'disarm';
      readonly why: 'boot' | 'reconnect' | 'suspend' | 'stall' | 'unit' | 'lease' | 'clock';
      readonly instrument: InstrumentId | null;
    }
  /** A button that only a screen has. What is measured comes from the conductor's own scale, never from the screen. */
  | { readonly kind: 'ask'; readonly ask: 'part-pour' | 'weigh-back' | 'away' | 'return' }
  /** A person chose what is done with the batter next, and by what it is weighed. */
  | { readonly kind: 'job'; readonly job: JobKey; readonly by: 'gain' | 'loss'; readonly from: readonly Source[] | null }
  /** The batch changed under it (an entry was committed). */
  | { readonly kind: 'batch' };

/** Opaque to everyone else; plain data so that the model test can compare and drop it. */
export interface ConductorStep<Memory> {
  readonly memory: Memory;
  readonly wants: readonly Want[];
  readonly cue: BenchCue;
}

/** Pure: the same memory, batch, view and event give the same step. */
export interface Conductor<Memory> {
  initial(seed: { readonly episode: number }): Memory;
  step(memory: Memory, batch: BatchState | null, view: BenchView, event: ConductorEvent, now: Monotonic): ConductorStep<Memory>;
}

export interface Pour {
  readonly line: LineId;
  readonly vessel: VesselId;
}
