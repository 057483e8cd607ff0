import type { BatchId, BootId, EntryId, InstrumentId, LineId, LotId, PersonId, VesselId } from '#lib/units/id';
import type { Milligrams } from '#lib/units/mass';
import type { MilliCelsius } from '#lib/units/temperature';
import type { ProbeUse } from '#lib/measure/reading';
import type { AcceptedHow, AlarmCode, Begun, Gate, HoldReason, PeakForetold, Realm, Share, TraceMark, Typed } from './entries';
import type { LinePlan, Plan, VesselPlan } from './plan';
import type { PourState } from './pouring/types';
import type { WrongWhat } from './remedy/record';
import type { RemedyAct } from './remedy/types';

/** Where a batch stands; the last two are its end. */
export const BATCH_STATUSES = ['weighing', 'joined', 'parked', 'abandoned', 'closed'] as const;

/** One batch, folded from its entries. The browser folds the same entries with the same function. */
export interface BatchState {
  readonly id: BatchId;
  readonly mark: string;
  readonly realm: Realm;
  readonly bench: string;
  readonly version: number;
  readonly plan: Plan;
  readonly startedWall: number;
  readonly startedBy: PersonId;
  readonly status: (typeof BATCH_STATUSES)[number];
  /** Status to return to when taken up again. */
  readonly parkedFrom: 'weighing' | 'joined' | null;
  /** Boot of the newest entry; another boot means a person must resume first. */
  readonly boot: BootId;
  readonly resumedInBoot: BootId;
  readonly lines: Readonly<Record<LineId, LineState>>;
  readonly order: readonly LineId[];
  readonly vessels: Readonly<Record<VesselId, VesselState>>;
  /** The line being weighed, by order of work; `null` when every line is closed. */
  readonly open: LineId | null;
  /** What stands on each pan and from where a pour is counted. */
  readonly pans: Readonly<Record<InstrumentId, PanState>>;
  /** Highest episode consumed in `boot`. */
  readonly consumed: { readonly boot: BootId; readonly episode: number };
  /** Precautions confirmed and still standing: a restart, a park and the dissolving itself end them. */
  readonly gates: Readonly<Partial<Record<Gate, EntryId>>>;
  /** Hydroxide lines whose material and precautions were confirmed. */
  readonly gateLines: Readonly<Record<LineId, EntryId>>;
  /** An accepted weight that shifted: nothing goes on before a person answers. */
  readonly question: { readonly entry: EntryId; readonly why: string; readonly was: Milligrams; readonly now: Milligrams } | null;
  /** An over-pour waiting for its answer. */
  readonly over: { readonly line: LineId; readonly by: Milligrams; readonly red: boolean; readonly entry: EntryId } | null;
  /** What a person stated to have gone wrong and has not answered yet. */
  readonly wrong: { readonly entry: EntryId; readonly what: WrongWhat; readonly line: LineId | null } | null;
  /** What the chosen way out has to be done by hand, in order. */
  readonly toDo: readonly RemedyAct[];
  /** Counts as poured and, as a person says, still lies in its jug. */
  readonly leftInJug: readonly { readonly line: LineId; readonly vessel: VesselId; readonly mass: Milligrams }[];
  /** What a person said is left of a line's material on the shelf, and how much of that material was in the batch then. */
  readonly shelf: readonly { readonly line: LineId; readonly left: Milligrams; readonly had: Milligrams }[];
  /** Batches begun with what was set aside of this one. */
  readonly setAside: readonly Begun[];
  /** Hard fats that a person said are melted or stirred in. */
  readonly stirredIn: readonly LineId[];
  readonly overrides: Readonly<Partial<Record<HoldReason, EntryId>>>;
  /** The value that was overridden, thousandths of a degree or millionths of superfat: an override does not cover a worse one. */
  readonly overrideValues: Readonly<Partial<Record<HoldReason, number | null>>>;
  /** Newest temperature typed by hand for each use, with its clock: it counts for a few minutes of the same boot only. */
  readonly typedTemperatures: Readonly<
    Partial<Record<ProbeUse, { readonly value: MilliCelsius; readonly boot: BootId; readonly mono: number; readonly entry: EntryId }>>
  >;
  /** What was foretold of the lye as it was made, by the newest dissolving; `null`: nothing. */
  readonly lyeForetold: PeakForetold | null;
  /** Highest that was measured of lye as it was made, and of soap in its mould; `null`: not kept yet. */
  readonly tops: { readonly lye: MilliCelsius | null; readonly mould: MilliCelsius | null };
  readonly away: { readonly line: LineId | null; readonly gross: Milligrams | null } | null;
  readonly joined: {
    readonly lye: MilliCelsius | null;
    readonly oils: MilliCelsius | null;
    /** Of the boot it was joined in: durations are never counted across boots. */
    readonly mono: number;
    readonly boot?: BootId;
    readonly wall: number;
  } | null;
  readonly trace: readonly {
    readonly mark: TraceMark;
    readonly batter: MilliCelsius | null;
    readonly wall: number;
    readonly note: string;
  }[];
  readonly alarms: Readonly<
    Partial<
      Record<AlarmCode, { readonly entry: EntryId; readonly silenced: boolean; readonly line: LineId | null; readonly detail: string }>
    >
  >;
  readonly checks: Readonly<
    Record<InstrumentId, { readonly entry: EntryId; readonly nominal: Milligrams; readonly difference: Milligrams }>
  >;
  readonly lostInstruments: readonly InstrumentId[];
  /** Portions of the batter. */
  readonly parts: readonly Portion[];
  /** Patterns, parts and moulds. */
  readonly pour: PourState;
  /** `stated`: deviations a person wrote down; left out where there are none. */
  readonly counts: { readonly overPours: number; readonly overrides: number; readonly byHand: number; readonly stated?: number };
  /** Wall time of closing or abandoning. */
  readonly endedWall: number | null;
}

export interface Portion {
  readonly name: string;
  readonly mass: Milligrams;
  readonly vessel: VesselId;
  readonly entry: EntryId;
  /** A person stated its mass; else it is what the vessel lost on the pan. */
  readonly byHand: boolean;
  /** What its entry took out of the vessel, on the first portion of that entry: what crossing it out puts back. */
  readonly took?: readonly Share[];
}

/** Each contribution is kept by its entry; sums, never inversions. */
export interface Contribution {
  readonly entry: EntryId;
  readonly kind: 'pour' | 'typed' | 'brought' | 'weigh-back' | 'withdrawn' | 'lost';
  /** Signed: what was weighed back, taken out or lost is negative. */
  readonly net: Milligrams;
  readonly vessel: VesselId;
  /** What the scale said; `null` when no scale was asked. */
  readonly weighed: {
    readonly instrument: InstrumentId;
    readonly gross: Milligrams;
    readonly zero: Milligrams;
    readonly step: Milligrams;
    readonly episode: number;
    /** A known mass had been put on that scale. */
    readonly checked: boolean;
    /** Which settled reading each is: one that ends a weighing and begins the next is the same. `zero` `null`: counted from elsewhere. */
    readonly readings: { readonly gross: string; readonly zero: string | null };
  } | null;
  /** A typed weight as it was typed. */
  readonly typed?: Pick<Typed, 'text' | 'unit'>;
  /** What it was poured from; absent where no lot was stated, and on what only takes back. */
  readonly lot?: { readonly id: LotId; readonly mark: string };
  /** Lots that were stated before somebody put it right, the first first. */
  readonly onceLots?: readonly { readonly id: LotId; readonly mark: string }[];
  /** What was taken out went back to its bottle. */
  readonly toBottle?: true;
  /** What was taken out began a batch of its own. */
  readonly toBatch?: true;
  /** What it truly was, where somebody put it right after the end. */
  readonly amended?: Milligrams;
  readonly how: AcceptedHow;
  readonly struck: EntryId | null;
  readonly provisional: boolean;
  /** Version of the batch its entry made: the order of contributions. */
  readonly version: number;
  readonly wall: number;
}

export interface LineState {
  readonly plan: LinePlan;
  /** The plan as started, when a replan moved it. */
  readonly planned: { readonly target: Milligrams; readonly tolerance: Milligrams };
  readonly contributions: readonly Contribution[];
  /** Σ unstruck contributions. */
  readonly actual: Milligrams;
  readonly status: 'waiting' | 'open' | 'closed';
  readonly outcome: 'within' | 'over' | 'short' | null;
  readonly byHand: boolean;
}

export interface VesselState {
  readonly plan: VesselPlan;
  readonly state: 'empty' | 'dry' | 'filling' | 'dissolved' | 'joined' | 'portioned' | 'moved';
  /** What the record says is in it: the sum of `holds`. */
  readonly contents: Milligrams;
  /** How much of each line is in it. */
  readonly holds: Readonly<Record<LineId, Milligrams>>;
  /** The vessel it was emptied into; `null` while it was not. */
  readonly deliveredTo: VesselId | null;
  /** What went there, by line: the mixture of which a residue in it is made. */
  readonly delivered: Readonly<Record<LineId, Milligrams>>;
  /** Gross at which it last stood accepted, by instrument; a lift to the hob must come back to it. */
  readonly standing: { readonly instrument: InstrumentId; readonly gross: Milligrams } | null;
  readonly empty: Milligrams | null;
  /** A crossed-out pour that is weighed again: whatever the vessel weighs, the line still counts from this zero. */
  readonly recount: { readonly line: LineId; readonly zero: Milligrams } | null;
}

export interface PanState {
  readonly vessel: VesselId;
  readonly line: LineId;
  readonly zero: Milligrams;
  /** The settled reading that the zero is; `null` where it was shifted or taken over. */
  readonly reading: string | null;
}
