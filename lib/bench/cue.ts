import type { InstrumentId, LineId, VesselId } from '#lib/units/id';
import type { Milligrams } from '#lib/units/mass';
import type { MilliCelsius } from '#lib/units/temperature';
import type { JobKey, Source } from '#lib/work/batch/pouring/types';
import type { RemedyCaution, RemedyClash, RemedyWhy } from '#lib/work/batch/remedy/types';
import type { AlarmCode, Gate, JoiningHold } from '#lib/work/batch/index';

/**
 * What the bench is doing now, as one word a screen can draw. Transient: never stored, never a truth.
 * `waiting-vessel`: the pan is empty or wrong; `ready`: zeroed, pour; `offer`: settled within, accepts by itself at `at`;
 * `ask`: settled but in doubt, a person must go on; `hold`: a hydroxide line waits for a held confirmation;
 * `patterns`: a mould has no pattern yet; `trouble`: something is wrong with the batter;
 * `over`: an over-pour waits for its answer; `remedy`: a stated wrong does; `take-out`: the chosen way out is done by hand; `lift`: accepted, provisional until the vessel is lifted.
 */
export type CuePhase =
  | 'idle'
  | 'resume'
  | 'gate'
  | 'choose-lot'
  | 'waiting-vessel'
  | 'strange-vessel'
  | 'settling-vessel'
  | 'ready'
  | 'pouring'
  | 'settling'
  | 'short'
  | 'offer'
  | 'ask'
  | 'hold'
  | 'over'
  | 'remedy'
  | 'take-out'
  | 'lift'
  | 'question'
  | 'away'
  | 'returning'
  | 'no-weight'
  | 'blocked'
  | 'by-hand'
  | 'temperatures'
  | 'joining'
  | 'patterns'
  | 'trace'
  | 'trouble'
  | 'pouring-moulds'
  | 'done';

/** Why nothing can be accepted although something stands there. */
export type BlockReason =
  | 'moving'
  | 'late'
  | 'lost'
  | 'suspect'
  | 'overload'
  | 'underload'
  | 'unit-changed'
  | 'tare-pressed'
  | 'probe-leaning'
  | 'wrong-vessel'
  | 'other-scale'
  | 'no-lease'
  | 'no-lot'
  | 'disarmed'
  | 'after-stall'
  | 'drift'
  | 'capacity';

export type DoubtReason =
  'step-up' | 'step-down' | 'fell' | 'was-over' | 'gap' | 'no-lot' | 'after-replug' | 'outran' | 'drift' | 'return-unlike';

/** One card: chosen with go on / back, taken with a hold (or a tap where `hold` is false). */
export interface Card {
  /** Key of a message with `params`; words are the screen's. */
  readonly code: string;
  readonly params: Readonly<Record<string, string | number>>;
  readonly hold: boolean;
  /** `false`: drawn dashed, with `why`; without one its own words say it. */
  readonly enabled: boolean;
  readonly why: string | null;
  /** A way out: what would come of it. */
  readonly remedy?: RemedySeen;
}

/** Fractions in millionths, masses in mg. `null`: nobody can say. */
export interface RemedyMatter {
  readonly of: 'lye' | 'share' | 'fragrance' | 'moulds';
  readonly line: LineId | null;
  readonly value: number;
}

export interface RemedySeen {
  readonly recommended: RemedyWhy | null;
  /** The limits that stand against it, or that it leaves, each with by how much. */
  readonly clashes: readonly RemedyClash[];
  readonly superfat: { readonly value: number; readonly half: number } | null;
  /** What becomes of those figures that carrying on takes out of their limits, beside superfat; ppm. Lines where it is a fat's share. */
  readonly matters: readonly RemedyMatter[];
  /** Batter over what the moulds hold. */
  readonly full: number | null;
  readonly added: Milligrams;
  readonly taken: Milligrams;
  /** Targets that move; the first few. */
  readonly lines: readonly { readonly line: LineId; readonly from: Milligrams; readonly to: Milligrams }[];
  readonly cautions: readonly RemedyCaution[];
  /** Of a split: what the part set aside needs to be a batch of its own. */
  readonly ownBatch?: readonly { readonly line: LineId; readonly mass: Milligrams }[];
  /** `false`: nothing could be worked out. */
  readonly solved: boolean;
}

/** A sentence for the voice and the live region: once per `id`. */
export interface Say {
  readonly id: number;
  readonly code: string;
  readonly params: Readonly<Record<string, string | number>>;
}

export interface BenchCue {
  readonly phase: CuePhase;
  readonly line: LineId | null;
  readonly vessel: VesselId | null;
  /** Scale the line is on. */
  readonly instrument: InstrumentId | null;
  /** Net now in the line's running pour, on top of what the line already has; `null` when no fresh number stands. */
  readonly poured: Milligrams | null;
  /** Line actual + poured. */
  readonly total: Milligrams | null;
  /** Target − total; negative when over. */
  readonly left: Milligrams | null;
  readonly target: Milligrams | null;
  readonly tolerance: Milligrams | null;
  /** Over-pour that leaves the formula's limits. */
  readonly red: boolean;
  /** Expected overshoot if the pour stops now; places the "ease off" mark. While frames come late the last one stands, and is unsure. */
  readonly overshoot: Milligrams | null;
  /** Ease off now. */
  readonly easeOff: boolean;
  /** Frames come late while pouring: a distinct "hold" sound instead of silence. */
  readonly holdSound: boolean;
  /** Pours this person's cue has seen, and how much earlier (ms) it therefore comes; `null`: nothing known of a hand. */
  readonly hand: { readonly seen: number; readonly lag: number } | null;
  /** Milliseconds until it accepts by itself, and the whole moment; `null` when not in `offer`. */
  readonly acceptsIn: { readonly left: number; readonly of: number } | null;
  /** Dwell progress towards settled, thousandths. */
  readonly settle: number | null;
  readonly doubts: readonly DoubtReason[];
  readonly block: BlockReason | null;
  readonly cards: readonly Card[];
  /** Index into `cards`; −1 when none is highlighted yet. */
  readonly selected: number;
  /** What "go on" would do now; `null`: nothing, drawn dashed. */
  readonly goOn: { readonly code: string; readonly hold: boolean } | null;
  readonly gate: { readonly gate: Gate; readonly items: readonly string[] } | null;
  readonly joining: JoiningCue | null;
  /** While the batter goes into the moulds; `null`: there is no scale for it. */
  readonly portion: PortionCue | null;
  readonly say: Say | null;
  readonly episode: number;
}

/**
 * A portion as it is weighed by its pot's loss. `stands`: zeroed, pour from it; `off`: lifted, its zero kept; `more`: heavier than it was, from
 * where a portion counts is asked; `offer`: `mass` waits for a
 * person's "go on"; `clear`: something stands there from before; `done`: nothing is left to pour; `closing`: whether to close is asked; `strange`: what stands there is too light to be the pot; `which`: it may be another jug as it last stood, or the one before, poured from; `no-scale`, `too-heavy`: portions are typed.
 */
export interface PortionCue {
  readonly at:
    | 'set-down'
    // What is weighed by what it loses.
    | 'set-pot'
    | 'set-jug'
    | 'settling'
    | 'stands'
    | 'off'
    | 'moving'
    | 'more'
    | 'offer'
    | 'strange'
    | 'which'
    | 'probe'
    | 'no-scale'
    | 'too-heavy'
    | 'clear'
    | 'name'
    | 'closing'
    | 'done';
  readonly mass: Milligrams | null;
  /** What is done, where the plan has moulds. `name`: of it, as data. */
  readonly job?: { readonly key: JobKey; readonly by: 'gain' | 'loss'; readonly name: string; readonly from: readonly Source[] };
}

export interface JoiningCue {
  readonly ready: boolean;
  readonly holds: readonly JoiningHold[];
  readonly lye: MilliCelsius | null;
  readonly oils: MilliCelsius | null;
  readonly apart: number | null;
}

export interface AlarmCue {
  readonly code: AlarmCode;
  readonly silenced: boolean;
  readonly line: LineId | null;
  readonly detail: string;
}
