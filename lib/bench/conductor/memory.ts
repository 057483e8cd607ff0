import type { BatchId, EntryId, InstrumentId, LineId, VesselId } from '#lib/units/id';
import type { ProbeUse } from '#lib/measure/reading';
import type { Track } from '#lib/measure/readings/settle';
import type { Bulge } from '#lib/measure/readings/bulge';
import type { Step } from '#lib/measure/readings/step';
import type { Weighed } from '#lib/work/batch/index';
import type { RemedyKind } from '#lib/work/batch/remedy/types';
import type { JobKey, Source } from '#lib/work/batch/pouring/types';
import type { CardCode, PourCardCode } from '../codes';
import type { Card, DoubtReason, Say } from '../cue';

/** What the conductor remembers between steps: volatile, plain data, dropped by anything after which a gross weight means nothing. */
export interface ConductorMemory {
  /** Settled windows seen in this boot; every weight the record takes names one, and one is taken once. */
  readonly episode: number;
  /** Batch and version last seen. */
  readonly batch: BatchId | null;
  readonly version: number;
  readonly scales: Readonly<Record<InstrumentId, ScaleMemory>>;
  readonly probes: Readonly<Partial<Record<ProbeUse, ProbeMemory | undefined>>>;
  readonly pour: PourMemory | null;
  /** The pot of batter as it last stood settled on a pan; `null` while no portion can be counted from it. */
  readonly portion: PortionMemory | null;
  /** What is done with the batter now; `null` until the bench has come to it. */
  readonly job: JobMemory | null;
  /** Somebody asked to close the batch: it is asked about with cards. */
  readonly closing: boolean;
  /** Which of the pages of patterns is shown. */
  readonly patternPage: number;
  /** Back from away: the pan is compared before anything goes on. */
  readonly returning: boolean;
  readonly choice: ChoiceMemory;
  /** When somebody last held the card of joining while joining was held; `null`: nobody did. */
  readonly joinAsked: number | null;
  /** The newest want that waits for the record, so that it is not repeated with every frame. */
  readonly asked: { readonly key: string; readonly version: number; readonly at: number } | null;
  readonly say: Say | null;
  /** What was said last, so that it is said once. */
  readonly said: string;
  /** Nothing new is said before this moment. */
  readonly quietUntil: number;
  /** What ways out were last wanted for. */
  readonly asking: AskingMemory | null;
  /** The way out that was taken and needs more of something: whether there is enough is asked first. `at`: newest moment of it. */
  readonly stock: { readonly card: string; readonly version: number; readonly at: number } | null;
  /** Zeros that were in the record before this memory began, as it has shifted them: what happened since nobody saw. */
  readonly inherited: Readonly<Record<InstrumentId, number>>;
}

/** Everything known of one scale and its pan. Masses in mg, times in monotonic ms. */
export interface ScaleMemory {
  readonly track: Track;
  /** The settled window that stands now. */
  readonly window: { readonly episode: number; readonly level: number } | null;
  /** What the empty pan reads, and whether it has been seen empty since the scale was armed. */
  readonly empty: number;
  readonly emptySeen: boolean;
  readonly drift: DriftMemory | null;
  /** Newest settled level; survives what disarms, to ask what happened meanwhile. */
  readonly lastLevel: number | null;
  readonly stop: StopMemory | null;
  readonly stand: StandMemory | null;
  /** A bottle weighed by its loss that stands here by the record. */
  readonly bottle: BottleMemory | null;
  /** The zero of a line that was not followed while its pan read something else, and what is doubtful of it for that. */
  readonly strayed: { readonly line: LineId; readonly zero: number; readonly doubts: readonly DoubtReason[] } | null;
}

/** A bottle set down for a line. `open`: it still is that line's turn; `off`: the pan has been free since it was not. */
export interface BottleMemory {
  readonly line: LineId;
  readonly zero: number;
  readonly open: boolean;
  readonly off: boolean;
}

/** A settled over-pour that is not in the record yet: it goes in before any way out is taken. */
export interface Unentered {
  readonly line: LineId;
  readonly vessel: VesselId;
  readonly weighed: Weighed;
}

/** What ways out are wanted for. Plain data, kept in the memory. */
export interface AskingMemory {
  /** Another key is another question. */
  readonly key: string;
  readonly since: number;
  /** Wanted in the step of this moment; an older one is wanted no more. */
  readonly at: number;
  readonly unentered: Unentered | null;
}

/** A probe's last seconds. */
export interface ProbeMemory {
  readonly at: number;
  readonly kept: readonly { readonly at: number; readonly value: number }[];
  /** It was put into its vessel while that stood on a pan. */
  readonly dipped: boolean;
}

/** The empty pan's reading at the start of a stretch, and how fast it has wandered since, mg per ms. */
export interface DriftMemory {
  readonly at: number;
  readonly level: number;
  readonly rate: number;
}

/** Something after which nothing is accepted from this scale before a person goes on. */
export interface StopMemory {
  readonly why: 'unit-changed' | 'tare-pressed' | 'disarmed';
  /** Last settled level before it. */
  readonly was: number | null;
  /** After the scale's own tare key: the pan has been seen empty since. */
  readonly emptied: boolean;
}

/** An accepted vessel on the pan: provisional until it is lifted. */
export interface StandMemory {
  readonly entry: EntryId;
  readonly vessel: VesselId;
  readonly line: LineId;
  readonly gross: number;
  readonly tolerance: number;
  /** What the empty pan read before; `null` when nobody has seen it empty. */
  readonly empty: number | null;
  /** Newest settled weight before the lift. */
  readonly left: number;
  /** Since when the reading has been above or below the accepted weight. */
  readonly up: number | null;
  readonly down: number | null;
  /** For how long it was above, and when that ended: a lift comes down through the accepted weight. */
  readonly wasUp: { readonly long: number; readonly until: number } | null;
  /** A weight unlike the accepted one at which it stood still for a moment, and has not settled back since. */
  readonly still: number | null;
  /** Since when the pan has been free, and how near to its empty reading it has come. */
  readonly off: number | null;
  readonly nearest: number;
  /** What stood still on the pan after the lift, above empty, before the pan came near to it. */
  readonly stayed: number | null;
  /** The lift itself was doubtful. */
  readonly shifted: 'shifted-up' | 'shifted-down' | null;
}

/** The running pour: made when the vessel is set for the line, gone with it. */
export interface PourMemory {
  readonly line: LineId;
  readonly vessel: VesselId;
  readonly instrument: InstrumentId;
  readonly zero: number;
  /** When the zero was taken: a scale that drifts is trusted for a while only. */
  readonly since: number;
  /** Steps are looked for from here on: what came before belongs to a set-down. */
  readonly stepsFrom: number;
  readonly begun: boolean;
  /** Highest settled net. */
  readonly highest: number;
  /** The most that stood for a moment, settled or not: net, mg. */
  readonly stood: number;
  readonly doubts: readonly DoubtReason[];
  /** The reading fell below a settled weight of this pour while the vessel stood there, and has not come to rest since. */
  readonly fallen: boolean;
  /** Sudden changes, each by its largest sighting; those that took each other back among them. */
  readonly steps: readonly Step[];
  /** What stood out of the stream by its shape, most of it the stream's own. */
  readonly bulges: readonly Bulge[];
  /** `unseen`: nobody sees it just now, so its moment begins anew when somebody does. */
  readonly offer: { readonly since: number; readonly level: number; readonly unseen: boolean } | null;
  /** A person said "back" to the offer, or crossed the weight out: it does not come again before the weight moves. */
  readonly cancelled: number | null;
  /** A person asked to keep this part of a hydroxide line: the weight it was asked at, until they hold, go back, or it moves. */
  readonly part: number | null;
  /** The line's newest weight that was crossed out, and whether the pan has moved away from it since. */
  readonly crossed: { readonly by: EntryId; readonly gross: number; readonly moved: boolean } | null;
  /**
   * The vessel was lifted before the line was done: settled gross it left with, the most it read since that settled, how near to empty
   * the pan has come, and since when something stands on it again without having come to rest.
   */
  readonly lifted: { readonly gross: number; readonly most: number; readonly nearest: number; readonly back: number | null } | null;
  /** The cards of its settled over-pour: they stay, none to be taken, while the reading moves or waits and is over still. */
  readonly ways: readonly (Card & { readonly code: CardCode | PourCardCode | RemedyKind })[];
  /** Greatest reading since the newest settled weight. */
  readonly most: number;
  /** "Free the vessel, lift it, set it down again": the level it should come back to. */
  readonly check: number | null;
  /** What would still arrive if the hand stopped now, mg, and whether it was told to. */
  readonly overshoot: number;
  readonly easedOff: boolean;
  /** What was expected when it was told to; `null` when it was not, or did not end by it. */
  readonly eased: EasedMemory | null;
}

/** The cue of a pour: masses in mg, `rate` in mg per ms, times in ms. */
export interface EasedMemory {
  readonly at: number;
  readonly net: number;
  /** Expected to come yet, by the fixed lag. */
  readonly coming: number;
  readonly rate: number;
  /** Where it came to rest; `null` while it moves. */
  readonly rest: number | null;
}

/** What a press would act on, and since when it has stood there: a hold that began before it does not count. */
export interface ChoiceMemory {
  readonly key: string;
  readonly selected: number;
  readonly since: number;
}

/** From where the next portion is counted, mg: what the scale read, and what the record had in the pot then. */
export interface PortionMemory {
  readonly instrument: InstrumentId;
  readonly zero: number;
  readonly contents: number;
}

/** What is done with joined batter, and by what it is weighed. */
export interface JobMemory {
  readonly key: JobKey;
  readonly by: 'gain' | 'loss';
  /** A person chose it: it stays until they choose another. */
  readonly chosen: boolean;
  /** Of a mould: from where; `null`: as its pattern says. By loss: the one jug. */
  readonly from: readonly Source[] | null;
  /** Amounts of it in the record when it began. */
  readonly had: number;
  /** The pan has been free since it began: what stands there now was set down for it. */
  readonly freed: boolean;
  /** By loss: what its jug last stood at, settled. */
  readonly zero: { readonly instrument: InstrumentId; readonly gross: number } | null;
  /** By loss: the pan has been free since then, or nobody followed it, and what came to rest on it was not looked at yet. */
  readonly off: boolean;
  /** What each jug last stood at. */
  readonly stood: Readonly<Partial<Record<Source, Stood>>>;
}

/** A jug as it last stood, with what the record had of it then: another count, and it weighs something else. */
export interface Stood {
  readonly instrument: InstrumentId;
  readonly gross: number;
  readonly pours: number;
  readonly had: number;
}

/** A step works on its own copy; what was handed in is never touched. */
export type Working<T> = { -readonly [K in keyof T]: T[K] };

export const initialMemory = (episode: number): ConductorMemory => ({
  episode,
  batch: null,
  version: -1,
  scales: {},
  probes: {},
  pour: null,
  portion: null,
  job: null,
  closing: false,
  patternPage: 0,
  returning: false,
  choice: { key: '', selected: -1, since: -Infinity },
  joinAsked: null,
  asked: null,
  say: null,
  said: '',
  quietUntil: -Infinity,
  asking: null,
  stock: null,
  inherited: {},
});
