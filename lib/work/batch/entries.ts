import type { InstrumentId, BatchId, BootId, EntryId, IntentId, LineId, LotId, PersonId, VesselId } from '#lib/units/id';
import type { MassUnit, Milligrams } from '#lib/units/mass';
import type { MilliCelsius } from '#lib/units/temperature';
import type { ProbeUse } from '#lib/measure/reading';
import type { TemperatureCourse } from './course';
import type { Amended, LotDespite, PhotoKept } from './later/types';
import type { Plan, LinePlan } from './plan';
import type { PouredResult } from './poured/result';
import type { BatterWrong, Container, Pattern, PhotoSubject, PlanMould, Source } from './pouring/types';
import type { RemedyAct } from './remedy/types';
import type { RemedyChosen, WrongStated } from './remedy/record';
import type { Share, Standing } from './share';

export type { TemperatureCourse } from './course';
export type { Share, Standing } from './share';

/** `practice` and `test` records can never pass for real ones: the realm is in every entry and in the file it lives in. */
export type Realm = 'real' | 'practice' | 'test';

/** What every entry of a batch carries. Integers and strings only. */
export interface EntryHead {
  readonly id: EntryId;
  readonly batch: BatchId;
  /** Version of this batch after the entry, from 1. */
  readonly version: number;
  readonly realm: Realm;
  /** Schema version of this kind. */
  readonly v: 1;
  readonly by: PersonId;
  /** `screen`: a person at a screen, key or pedal. `bench`: the conductor, hands-free. `server`: the program itself. */
  readonly via: 'screen' | 'bench' | 'server';
  readonly intent: IntentId | null;
  readonly boot: BootId;
  readonly mono: number;
  readonly wall: number;
  readonly offsetMin: number;
}

/** A settled weight as evidence. `net = sign × (gross − zero)`; `sign` is −1 for loss-in-weight. */
export interface Weighed {
  readonly gross: Milligrams;
  /** The software zero: settled gross before the pour (container and what was in it). */
  readonly zero: Milligrams;
  readonly net: Milligrams;
  readonly text: string;
  readonly unit: MassUnit;
  readonly step: Milligrams;
  /** Raw frame, base64. */
  readonly raw: string;
  readonly instrument: InstrumentId;
  /** The newest scale check, by its entry; `null`: this scale was never checked. */
  readonly check: EntryId | null;
  readonly episode: number;
  /** SHA-256 of the strip of this pour, hex; `null` when none was kept. */
  readonly strip: string | null;
}

/** A weight a person typed. Says "by hand" for ever. */
export interface Typed {
  readonly net: Milligrams;
  readonly text: string;
  readonly unit: MassUnit;
}

/** What the bench expected when it said "ease off": beside where the pour ended it tells how the hand answers. Moves nothing. */
export interface Eased {
  /** Who leads the bench. */
  readonly hand: PersonId;
  /** Poured when it said so. */
  readonly net: Milligrams;
  /** Expected to come after it, before anything learnt of this hand. */
  readonly coming: Milligrams;
  /** Flow at that moment, milligrams per second. */
  readonly rate: number;
}

/** How a weight came to be accepted. `held`: deliberate 2 s confirmation with the material named. */
export type AcceptedHow = 'by-itself' | 'go-on' | 'held' | 'typed';

/** Superfat as a person was shown it when they went on: millionths, `chance` of some alkali left over too. */
export interface SuperfatThen {
  readonly working: number;
  /** Two standard uncertainties below it. */
  readonly least: number;
  readonly chance: number;
}

export type OverChoice = 'carry-on' | 'cross-out';
export type Gate = 'hydroxide' | 'cold-liquid';
export type HoldReason =
  | 'lye-too-hot'
  | 'lye-too-cold'
  | 'oils-too-hot'
  | 'oils-near-setting'
  | 'milk-too-hot'
  | 'apart'
  | 'temperature-unknown'
  | 'may-be-lye-heavy';
export type TraceMark = 'thin' | 'medium' | 'thick' | 'wrong';
export type AlarmCode =
  | 'over-pour'
  | 'over-pour-red'
  | 'vessel-changed'
  | 'scale-lost'
  | 'probe-lost'
  | 'unit-changed'
  | 'tare-pressed'
  | 'lye-too-hot'
  | 'oils-near-setting'
  | 'milk-too-hot'
  | 'apart'
  | 'clock-jumped'
  | 'mass-on-return';

export type StrikeReason = 'wrong-material' | 'wrong-vessel' | 'something-on-the-pan' | 'over-poured' | 'mistyped' | 'undone' | 'other';

/** How hot the lye was foretold to get as its hydroxide went in; thousandths of a degree, standard uncertainties too. */
export interface PeakForetold {
  /** What the liquid had. */
  readonly start: MilliCelsius;
  readonly likely: { readonly value: MilliCelsius; readonly u: number };
  readonly atMost: { readonly value: MilliCelsius; readonly u: number };
}

/** A batch that was begun with what another one set aside. */
export interface Begun {
  readonly batch: BatchId;
  readonly mark: string;
}

/** What a batch was begun with: so much of each lot, out of the mixture of another batch. */
export interface Brought {
  readonly batch: BatchId;
  readonly mark: string;
  /** Of the entry there by which it left. */
  readonly version: number;
  readonly vessel: VesselId;
  readonly mass: Milligrams;
  readonly shares: readonly (Share & { readonly lot: { readonly id: LotId; readonly mark: string } | null })[];
  /** A person stated the mass; else `weighed`, as it stands there too, told it. */
  readonly source?: 'by-hand';
  readonly weighed?: Weighed;
}

/** The body of each kind. A new kind does not compile until it is decided, evolved, reviewed and drawn. */
export interface EntryBodies {
  /** `from`: what it begins with was set aside by another batch. */
  'batch-started': { mark: string; plan: Plan; bench: string; uncheckedScales: readonly InstrumentId[]; from?: Brought };
  replanned: { lines: readonly LinePlan[]; reason: string };
  /** `despite`: it should not have been, and somebody held to say that it is. */
  'lot-chosen': { line: LineId; lot: { id: LotId; mark: string }; despite?: LotDespite };
  /** A person confirmed precautions, with the items shown to them. */
  'gate-confirmed': { gate: Gate; line: LineId | null; items: readonly string[] };
  /** A container stands on the pan and the software zero is taken. Whatever interprets a gross weight is an entry. */
  'vessel-set': {
    vessel: VesselId;
    line: LineId;
    instrument: InstrumentId;
    gross: Milligrams;
    empty: Milligrams | null;
    episode: number;
    /** Only when the pour is counted from an earlier weight than `gross`: a crossed-out pour that is weighed again. */
    zero?: Milligrams;
  };
  /** A weight counts from here; provisional until `vessel-lifted` with the same mass. `part`: more will follow. */
  'weight-accepted': {
    line: LineId;
    vessel: VesselId;
    weighed: Weighed;
    how: AcceptedHow;
    part: boolean;
    lot: { id: LotId; mark: string } | null;
    eased?: Eased;
  };
  'weight-typed': { line: LineId; vessel: VesselId; typed: Typed; part: boolean; lot: { id: LotId; mark: string } | null };
  /**
   * What stayed in a jug, weighed back: reduces the delivered mass of its line, or of each line of its mixture (`shares`).
   * `out`: where the record had it standing until now; what stayed behind leaves the batch.
   */
  'weighed-back': { line: LineId; vessel: VesselId; weighed: Weighed; shares?: readonly Share[]; out?: readonly Standing[] };
  /** Lifted with the mass it was accepted at: no longer provisional. */
  'vessel-lifted': { vessel: VesselId; gross: Milligrams };
  /** An accepted weight shifted before the lift, or the vessel came back unlike it left: a person must say. */
  'weight-questioned': {
    entry: EntryId;
    why: 'shifted-up' | 'shifted-down' | 'unlike-on-return' | 'changed-on-pan';
    was: Milligrams;
    now: Milligrams;
  };
  'question-answered': { entry: EntryId; answer: 'keep' | 'strike' };
  /** Crossed out, never erased: both values show for ever. */
  struck: {
    entry: EntryId;
    reason: StrikeReason;
    note: string;
    /** Where the crossed-out mass stood by the record, and leaves. Negative: comes back (a crossed-out withdrawal). */
    out?: readonly Standing[];
    /** Weighed again from the same zero: the pour in this vessel still counts from here. */
    recount?: { vessel: VesselId; line: LineId; zero: Milligrams };
  };
  'over-answered': { line: LineId; choice: OverChoice; over: Milligrams; red: boolean };
  /** A way out was chosen: the lines it moves follow as `replanned`, what leaves is led and measured. */
  'remedy-chosen': RemedyChosen;
  /** What was to leave by hand, or to be poured on, has been done; what left is in the entry before it. */
  'remedy-act-done': { kind: RemedyAct['kind']; vessel: VesselId; asked: Milligrams; done: Milligrams };
  /** A person says what went wrong besides an over-pour; what it changes follows. */
  'wrong-stated': WrongStated;
  'line-closed': { line: LineId; outcome: 'within' | 'over' | 'short'; actual: Milligrams };
  'line-reopened': { line: LineId };
  /** `source`, here and on the next three: a person stated the mass. Absent where a weighing told it, and in lines older than the key. */
  moved: { from: VesselId; to: VesselId; mass: Milligrams; residue: Milligrams | null; shares?: readonly Share[]; source?: 'by-hand' };
  /** A fraction of the vessel's mixture leaves it, in millionths of what is in it. */
  withdrawn: {
    vessel: VesselId;
    ppm: number;
    mass: Milligrams;
    to: 'bottle' | 'waste' | 'other-vessel';
    shares?: readonly Share[];
    source?: 'by-hand';
    /** By the loss of its vessel on the pan. */
    weighed?: Weighed;
    /** What left is a batch of its own now, which holds it from its first entry. */
    begins?: Begun;
  };
  lost: {
    vessel: VesselId;
    mass: Milligrams;
    cause: 'spill' | 'evaporation' | 'other';
    note: string;
    shares?: readonly Share[];
    source?: 'by-hand';
  };
  /** `weighed`: one portion, by the loss of its vessel on the pan. */
  split: {
    vessel: VesselId;
    parts: readonly { name: string; mass: Milligrams }[];
    shares?: readonly Share[];
    source?: 'by-hand';
    weighed?: Weighed;
  };
  /** `named`: before joining. `dropped`: to a plain pour, afterwards. */
  'pattern-named': { mould: number; pattern: Pattern; was: Pattern | null; why: 'named' | 'dropped' };
  /** A jug for a part, or a mould, stands empty on a scale: what it weighs later is counted from here. */
  'container-set': { container: Container; instrument: InstrumentId; gross: Milligrams; episode: number };
  /** Batter out of the pot into the jug of a part. `weighed`: by what the jug gained, or what the pot lost. */
  parted: { part: string; name: string; mass: Milligrams; weighed?: Weighed; source?: 'by-hand' };
  /** What came into a mould, by turns from each of `from`. `weighed`: by what the mould gained, or what its one jug lost. */
  'mould-poured': { mould: number; from: readonly Source[]; mass: Milligrams; weighed?: Weighed; source?: 'by-hand' };
  /** What stayed in the pot or in the jug of a part, once all was poured. */
  'left-over': { of: Source; mass: Milligrams; weighed?: Weighed; source?: 'by-hand' };
  /** What a person saw go wrong in joined batter. */
  'batter-wrong': { what: BatterWrong };
  /** A photograph for when the gloves are off. */
  'photo-asked': { of: PhotoSubject; mould: number | null };
  'temperature-noted': {
    use: ProbeUse;
    value: MilliCelsius;
    source: { instrument: InstrumentId; raw: string } | 'by-hand';
    /** `peak`: the highest that soap in its mould, or lye as it was made, came to by its own heat. */
    why: 'asked' | 'joined' | 'trace' | 'away' | 'return' | 'peak';
  };
  /** `foretold`: where the liquid's temperature was known, and what it holds. */
  dissolved: { vessel: VesselId; into: VesselId; confirmedCold: boolean; foretold?: PeakForetold };
  /** `superfat`: of `may-be-lye-heavy` alone, whose value is no temperature. */
  override: { reason: HoldReason; value: MilliCelsius | null; limit: MilliCelsius | null; note: string; superfat?: SuperfatThen };
  joined: {
    lye: MilliCelsius | null;
    oils: MilliCelsius | null;
    overrides: readonly HoldReason[];
    /** Which of the two a person typed. */
    byHand?: readonly ('lye' | 'oils')[];
    /** Vessels emptied into `into`. */
    from?: readonly VesselId[];
    into?: VesselId | null;
    /** The way both took until then. */
    course?: TemperatureCourse;
  };
  'trace-stamped': { mark: TraceMark; batter: MilliCelsius | null; note: string };
  'went-away': { line: LineId | null; gross: Milligrams | null; lye: MilliCelsius | null; oils: MilliCelsius | null };
  'came-back': { same: boolean; was: Milligrams | null; now: Milligrams | null };
  /** After a restart: what a person says is in the vessel of the open line. */
  resumed: { line: LineId | null; contents: 'as-recorded' | 'poured-more' | 'emptied' | 'unsure'; note: string };
  parked: { reason: string };
  /** `moulds`: chosen now for a batch that had none. */
  'taken-up': { note: string; moulds?: readonly PlanMould[] };
  abandoned: { reason: string };
  /** `poured`: what the batch came to, with the method that worked it out; absent where nothing could be. */
  closed: { actual: Milligrams; lines: readonly { line: LineId; actual: Milligrams }[]; poured?: PouredResult };
  'scale-checked': { instrument: InstrumentId; nominal: Milligrams; shown: Milligrams; difference: Milligrams };
  'alarm-raised': {
    code: AlarmCode;
    line: LineId | null;
    instrument: InstrumentId | null;
    detail: string;
    /**
     * Set when an accepted weight is over: by how much past the target. The batch then waits for the answer. `again`: it was answered, and
     * what should have left it did not.
     */
    over?: { by: Milligrams; again?: boolean };
  };
  'alarm-ended': { code: AlarmCode };
  'alarm-silenced': { code: AlarmCode };
  'instrument-lost': { instrument: InstrumentId; last: Milligrams | null };
  'instrument-back': { instrument: InstrumentId };
  'clock-jumped': { byMs: number; kind: 'wall-step' | 'suspend' | 'stall' };
  /** `deviation`: a person says that something went otherwise than it should. */
  noted: { text: string; deviation?: true };
  /** Ticked as the batch starts, in the words that were shown. */
  cleaned: { items: readonly string[] };
  /** After the batch has ended. */
  amended: Amended;
  'photo-kept': PhotoKept;
}

export type EntryKind = keyof EntryBodies;
export type Entry = { [K in EntryKind]: EntryHead & { readonly kind: K; readonly body: Readonly<EntryBodies[K]> } }[EntryKind];
export type EntryOf<K extends EntryKind> = Extract<Entry, { kind: K }>;

/** What `decide` returns: kind and body; the head is put on by the one place that knows ids and clocks. */
export type Draft = { [K in EntryKind]: { readonly kind: K; readonly body: Readonly<EntryBodies[K]> } }[EntryKind];
