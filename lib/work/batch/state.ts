import type { BatchId, BootId, EntryId, InstrumentId, LineId, PersonId, VesselId } from '#lib/units/id';
import type { Milligrams } from '#lib/units/mass';
import type { MilliCelsius } from '#lib/units/temperature';
import type { AcceptedHow, AlarmCode, Gate, HoldReason, Realm, TraceMark } from './entries';
import type { LinePlan, Plan, VesselPlan } from './plan';

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
  readonly status: 'weighing' | 'joined' | 'parked' | 'abandoned' | 'closed';
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
  readonly gates: Readonly<Partial<Record<Gate, EntryId>>>;
  /** An accepted weight that shifted: nothing goes on before a person answers. */
  readonly question: { readonly entry: EntryId; readonly why: string; readonly was: Milligrams; readonly now: Milligrams } | null;
  /** An over-pour waiting for its answer. */
  readonly over: { readonly line: LineId; readonly by: Milligrams; readonly red: boolean; readonly entry: EntryId } | null;
  readonly overrides: Readonly<Partial<Record<HoldReason, EntryId>>>;
  readonly away: { readonly line: LineId | null; readonly gross: Milligrams | null } | null;
  readonly joined: {
    readonly lye: MilliCelsius | null;
    readonly oils: MilliCelsius | null;
    readonly mono: number;
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
  readonly checks: Readonly<Record<InstrumentId, { readonly entry: EntryId; readonly difference: Milligrams }>>;
  readonly lostInstruments: readonly InstrumentId[];
}

/** Each contribution is kept by its entry; sums, never inversions. */
export interface Contribution {
  readonly entry: EntryId;
  readonly kind: 'pour' | 'typed' | 'weigh-back';
  /** Signed: a weigh-back is negative. */
  readonly net: Milligrams;
  readonly how: AcceptedHow;
  readonly struck: EntryId | null;
  readonly provisional: boolean;
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
  /** What the record says is in it. */
  readonly contents: Milligrams;
  /** Gross at which it last stood accepted, by instrument; a lift to the hob must come back to it. */
  readonly standing: { readonly instrument: InstrumentId; readonly gross: Milligrams } | null;
  readonly empty: Milligrams | null;
}

export interface PanState {
  readonly vessel: VesselId;
  readonly line: LineId;
  readonly zero: Milligrams;
}
