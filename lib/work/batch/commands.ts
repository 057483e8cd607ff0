import type { BatchId, BootId, EntryId, InstrumentId, IntentId, LineId, LotId, PersonId, VesselId } from '#lib/units/id';
import type { Milligrams } from '#lib/units/mass';
import type { MilliCelsius } from '#lib/units/temperature';
import type { ProbeUse } from '#lib/measure/reading';
import type {
  AcceptedHow,
  AlarmCode,
  Eased,
  Gate,
  HoldReason,
  OverChoice,
  Realm,
  StrikeReason,
  TraceMark,
  Typed,
  Weighed,
  TemperatureCourse,
} from './entries';
import type { LyeHeat } from './heating';
import type { Amended, LotDespite, PhotoKept } from './later/types';
import type { LinePlan, Plan } from './plan';
import type { BatterWrong, Container, Pattern, PhotoSubject, PlanMould, Source } from './pouring/types';
import type { RemedyFacts } from './remedy/facts';
import type { WrongStated } from './remedy/record';
import type { RemedyCard } from './remedy/types';

/**
 * A completed command: what a person or the conductor wants, completed by the server with who, when and the observation from
 * its own ring. Nothing measured is ever taken from a screen; a screen's weight is `type-weight`.
 */
export interface CommandHead {
  readonly batch: BatchId;
  /** Version of the batch the sender saw; a mismatch is refused as `moved-on`. `null` from the conductor, which runs in the same mailbox. */
  readonly expectedVersion: number | null;
  readonly by: PersonId;
  readonly via: 'screen' | 'bench' | 'server';
  readonly role: Role;
  readonly intent: IntentId | null;
  readonly boot: BootId;
  readonly mono: number;
  readonly wall: number;
  readonly offsetMin: number;
  readonly observation: Observation;
}

/**
 * `maker` holds the bench's control lease; `watcher` may look and silence. `program` is the conductor acting on readings and
 * ticks: it may note what it sees and accept by itself, never stand for a person. What the conductor wants because a person
 * pressed or took a card is completed with that person and `maker`.
 */
export type Role = 'maker' | 'watcher' | 'program';

/** The server's own view at the moment of the decision. */
export interface Observation {
  /** The settled weight on the scale the command speaks of; `null` when it is moving, late, lost, suspect or out of range. */
  readonly settled: { readonly instrument: InstrumentId; readonly gross: Milligrams; readonly episode: number } | null;
  readonly lye: MilliCelsius | null;
  readonly oils: MilliCelsius | null;
  readonly milk: MilliCelsius | null;
  /** What the probe has said of the lye since it was made. */
  readonly lyeSeen?: LyeHeat | null;
  /** What is poured for a line and in no entry yet, as far as its scale has seen; absent or `null`: nothing. */
  readonly poured?: { readonly line: LineId; readonly net: Milligrams } | null;
  /** Newest check of each scale, by its entry; a scale that is missing here was never checked. */
  readonly checks: Readonly<Record<string, EntryId>>;
  /** Every scale on the bench. */
  readonly scales?: readonly InstrumentId[];
  /** Greatest gross of each scale, where somebody has said. */
  readonly capacity?: Readonly<Record<string, Milligrams>>;
  /** What each scale counts in. */
  readonly division?: Readonly<Record<string, Milligrams>>;
  readonly batter?: MilliCelsius | null;
  /** The batch armed on this bench: one at a time. */
  readonly armed?: BatchId | null;
}

export interface CommandBodies {
  /** `cleaned`: what was ticked as clean. `unfit`: its lots that should not be used, by the stores; then it is held. */
  start: {
    mark: string;
    plan: Plan;
    realm: Realm;
    bench: string;
    cleaned?: readonly string[];
    unfit?: readonly { line: LineId; lot: { id: LotId; mark: string }; fault: LotDespite }[];
    held?: boolean;
  };
  replan: { lines: readonly LinePlan[]; reason: string };
  /** `fault`: why it should not be weighed from, by the stores; then it is held. */
  'choose-lot': { line: LineId; lot: { id: LotId; mark: string }; fault?: LotDespite; held?: boolean };
  'confirm-gate': { gate: Gate; line: LineId | null; items: readonly string[]; held: boolean };
  /** `within`, here and below: how closely the scale tells two weights apart (the greater of two divisions and its noise). */
  'set-vessel': { line: LineId; vessel: VesselId; instrument: InstrumentId; gross: Milligrams; episode: number; within?: Milligrams };
  /** `part`: the person asked to keep what is in and pour the rest later (another jug, capacity). */
  accept: { line: LineId; vessel: VesselId; weighed: Weighed; how: AcceptedHow; part: boolean; shortIsFine: boolean; eased?: Eased };
  /** `held`: needed for hydroxide. */
  'type-weight': { line: LineId; typed: Typed; readBack: boolean; part: boolean; held?: boolean; shortIsFine?: boolean };
  'weigh-back': { line: LineId; vessel: VesselId; weighed: Weighed };
  /** `gross`: the last settled weight before the lift. */
  lift: { vessel: VesselId; gross: Milligrams; within?: Milligrams };
  question: { entry: EntryId; why: 'shifted-up' | 'shifted-down' | 'unlike-on-return' | 'changed-on-pan'; now: Milligrams };
  'answer-question': { entry: EntryId; answer: 'keep' | 'strike'; held: boolean };
  /** `version`: of the batch the answer was worked out for; to another it says nothing. */
  'choose-remedy': {
    card: RemedyCard;
    others: readonly RemedyCard[];
    solved: boolean;
    version: number;
    facts: RemedyFacts;
    held: boolean;
  };
  /**
   * The first act of the chosen remedy is done. `weighed`: by the loss of its vessel on the pan; `null`: as a person says.
   * `leave`: it is not done after all. `begins`: the id of the batch that what is set aside becomes; the server's.
   */
  'do-remedy-act': { weighed: Weighed | null; held: boolean; leave?: boolean; begins?: BatchId };
  'state-wrong': WrongStated & { held: boolean };
  'answer-over': { line: LineId; choice: OverChoice; held: boolean };
  strike: { entry: EntryId; reason: StrikeReason; note: string; held: boolean };
  move: { from: VesselId; to: VesselId; mass: Milligrams; residue: Milligrams | null };
  withdraw: { vessel: VesselId; mass: Milligrams; to: 'bottle' | 'waste' | 'other-vessel' };
  lose: { vessel: VesselId; mass: Milligrams; cause: 'spill' | 'evaporation' | 'other'; note: string };
  /** `weighed`: by the loss of the vessel on the pan, one portion; without it each was typed. */
  split: { vessel: VesselId; parts: readonly { name: string; mass: Milligrams }[]; weighed?: Weighed };
  'name-pattern': { mould: number; pattern: Pattern };
  'set-container': { container: Container; instrument: InstrumentId; gross: Milligrams; episode: number };
  /** Of these three `weighed` tells the mass; without it a person typed it. */
  part: { part: string; mass: Milligrams; weighed?: Weighed };
  'pour-mould': { mould: number; from: readonly Source[]; mass: Milligrams; weighed?: Weighed };
  'weigh-left': { of: Source; mass: Milligrams; weighed?: Weighed };
  'state-batter': { what: BatterWrong };
  'ask-photo': { of: PhotoSubject; mould: number | null };
  /** Without `source` it was typed by hand. */
  'note-temperature': {
    use: ProbeUse;
    value: MilliCelsius;
    why: 'asked' | 'trace' | 'away' | 'return' | 'peak';
    source?: { instrument: InstrumentId; raw: string };
  };
  dissolve: { vessel: VesselId; into: VesselId; held: boolean };
  override: { reason: HoldReason; held: boolean; note: string };
  /** `course`: the server's own, never a screen's. */
  join: { held: boolean; course?: TemperatureCourse };
  'stamp-trace': { mark: TraceMark; note: string };
  'go-away': Record<never, never>;
  /** `accept`: go on although the weight is another one. */
  'come-back': { gross: Milligrams | null; accept: boolean; within?: Milligrams };
  resume: { contents: 'as-recorded' | 'poured-more' | 'emptied' | 'unsure'; note: string; held: boolean };
  park: { reason: string };
  /** `moulds`: those that a batch without any is to be poured into; left out, none. */
  'take-up': { note: string; moulds?: readonly PlanMould[] };
  abandon: { reason: string; held: boolean };
  close: Record<never, never>;
  'check-scale': { instrument: InstrumentId; nominal: Milligrams };
  'raise-alarm': { code: AlarmCode; line: LineId | null; instrument: InstrumentId | null; detail: string };
  'end-alarm': { code: AlarmCode };
  silence: { code: AlarmCode };
  'lose-instrument': { instrument: InstrumentId; last: Milligrams | null };
  'regain-instrument': { instrument: InstrumentId };
  'mark-clock-jump': { byMs: number; kind: 'wall-step' | 'suspend' | 'stall' };
  note: { text: string; deviation?: true };
  /** What was there before the record itself says. */
  amend: Amended;
  'keep-photo': PhotoKept;
}

export type CommandKind = keyof CommandBodies;
/** What the conductor or an intent yields, before the server completes it. */
export type Want = { [K in CommandKind]: { readonly kind: K; readonly body: Readonly<CommandBodies[K]> } }[CommandKind];
export type Command = { [K in CommandKind]: CommandHead & { readonly kind: K; readonly body: Readonly<CommandBodies[K]> } }[CommandKind];
export type CommandOf<K extends CommandKind> = Extract<Command, { kind: K }>;

/** Refusals are codes with parameters; words are the screen's. */
export interface Refusal {
  readonly code: RefusalCode;
  readonly params: Readonly<Record<string, string | number>>;
}
export type RefusalCode =
  | 'moved-on' // the batch went on since the sender looked
  | 'already-done' // this episode was consumed: a double tap, not an error
  | 'not-yours' // role may not
  | 'wrong-state' // batch parked, closed, abandoned, not started
  | 'another-batch' // one armed per bench
  | 'no-such' // line, vessel, entry
  | 'plan-unsound' // its formula cannot be computed, or something stands against starting it
  | 'not-settled'
  | 'keep-first' // what is poured and in no entry yet would be lost by it
  | 'away'
  | 'needs-resume'
  | 'needs-gate'
  | 'needs-hold'
  | 'needs-lot'
  | 'lot-unknown' // no lot in the stores bears what was scanned
  | 'lot-unclear' // several do
  | 'lot-other' // it is of another material than the line
  | 'lot-unfit' // past its day, set apart or used up: held, it is weighed from all the same
  | 'needs-answer' // an open over-pour or question first
  | 'needs-read-back'
  | 'out-of-tolerance'
  | 'over-capacity'
  | 'wrong-vessel'
  | 'wrong-order'
  | 'unfit-vessel' // aluminium, zinc, tin
  | 'joining-held'
  | 'after-joining' // no hydroxide once joined
  | 'lye-heavy'
  | 'lye-hot' // no hydroxide into liquid or lye that a probe or a hand says is hot
  | 'over-rating' // the lye would get hotter than its jug is made for
  | 'bad-number'
  | 'no-jug' // to be weighed back: none stands still on a scale
  | 'pan-not-empty' // by the record a vessel stands on it
  | 'check-unlikely' // a scale checked with one mass shows another altogether
  | 'expired'
  | 'offline'
  | 'not-in-control'
  | 'malformed' // the message is none of ours; nothing was looked at
  | 'too-fast' // more messages than a person can mean
  | 'not-as-shown' // a way out would not do what it showed, or may not be taken any more
  | 'mixed' // what was poured lies in a mixture: nothing of it alone can be taken back out
  | 'no-stock'
  | 'read-only'; // the record cannot be written: nothing was kept
