import type { BarsId, BatchId, EntryId, PersonId } from '#lib/units/id';
import type { Milligrams } from '#lib/units/mass';
import type { MilliCelsius } from '#lib/units/temperature';
import type { EntryHead, Typed, Weighed } from '../batch/entries';

/** What every entry of a bar lot carries: an entry's usual head, under the lot's key. */
export interface BarsHead extends Omit<EntryHead, 'batch'> {
  readonly batch: BarsId;
}

/** A mould as it was when the bars were begun. Lengths in whole micrometres, inside; `null`: nobody has measured. */
export interface MouldKept {
  /** Of the workshop's mould; `null`: named by hand. */
  readonly id: string | null;
  readonly name: string;
  /** `log`: to be cut. `bars`: each cavity is one. */
  readonly gives: 'log' | 'bars';
  readonly cavities: number;
  readonly length: number | null;
  readonly width: number | null;
  readonly depth: number | null;
}

/** What about a bar changes how long it stands, and how it looks later. */
export interface BarsTraits {
  /** A salt or wax bar crumbles when it is cut late. */
  readonly salt: boolean;
  readonly wax: boolean;
  readonly vanillin: boolean;
}

export type UnmouldState = 'out' | 'stuck' | 'torn' | 'too-soft' | 'freezer' | 'not-yet';
/** `fixed`: wires at one distance. `adjustable`: a stop is set. `none`: the mould gives bars. */
export type CutterKind = 'fixed' | 'adjustable' | 'none';
export type TrimHow = 'planed' | 'bevelled' | 'stamped';
/** `cure`: a bar followed over weeks. `net`: its content looked at against the label. `mass`: a known mass, for what the scale is off by. */
export type WeighedFor = 'cure' | 'net' | 'mass';
export type NoteAbout = 'scent' | 'colour' | 'room' | 'other';
export type CorrectReason = 'mistyped' | 'wrong-bar' | 'something-on-the-pan' | 'undone' | 'other';

/** Bars that leave the shelf. Names of people and shops are never here: `to` is an id of the table of names, `at` an order's or market's. */
export interface StockMoved {
  readonly count: number;
  readonly to: PersonId | null;
  readonly at: string | null;
  /** `away`: of those that were taken along to a market. `aside`: of those given back and kept apart. */
  readonly from: 'shelf' | 'away' | 'aside';
  readonly note: string;
}

/** Pieces of a wrap, a box or a label. `goods`: its id; `name` as it was called then. `lot`: mark of its lot; `null`: of those in none. */
export interface PiecesUsed {
  readonly goods: string;
  readonly name: string;
  readonly lot: string | null;
  readonly pieces: number;
}

/** The body of each kind. A new kind does not compile until it is decided, evolved, reviewed and read back. */
export interface BarsBodies {
  'bars-begun': {
    of: { batch: BatchId; mark: string; formula: { id: string; name: string; version: number } };
    /** Number of the first of `moulds`; the lot's mark ends with it. */
    n: number;
    moulds: readonly number[];
    mark: string;
    mould: MouldKept;
    /** Wall time it was poured. */
    poured: number;
    /** In all its moulds, as weighed; `null`: nobody knows. */
    batter: Milligrams | null;
    /** Water in the batter, millionths by mass; `null` where the batch could not be worked out. */
    water: number | null;
    pattern: string;
    traits: BarsTraits;
  };
  /** `humidity` in millionths, where somebody said it. `probe`: its name where one in the room says so; without it a person does. */
  'bars-unmould-noted': { state: UnmouldState; note: string; room: MilliCelsius | null; humidity?: number; probe?: string };
  /** Lengths in µm. `ends` and `testers` are counted and never sold. `mass`: of one bar as cut, as expected. */
  'bars-cut': {
    cutter: { id: string | null; name: string; kind: CutterKind };
    count: number;
    ends: number;
    testers: number;
    thickness: number | null;
    log: { length: number; trim: number; kerf: number } | null;
    mass: Milligrams | null;
  };
  /** Some bars weighed together before and after: what planing, bevelling or stamping takes. */
  'bars-trimmed': { how: TrimHow; bars: number; before: Milligrams; after: Milligrams };
  /** The weight their label states. */
  'bars-labelled': { net: Milligrams };
  /** `bar`: its number, from 1; `null`: any of them. `known`: of a mass, what it is. */
  'bars-weighed': { bar: number | null; for: WeighedFor; weighed: Weighed; how: 'by-itself' | 'go-on'; known?: Milligrams };
  'bars-weight-typed': { bar: number | null; for: WeighedFor; typed: Typed };
  /** `day`: whole days since pouring. The picture itself lies by its hash. */
  'bars-photo': { sha256: string; day: number; note: string };
  /** `humidity` in millionths. */
  'bars-noted': { about: NoteAbout; text: string; room: MilliCelsius | null; humidity: number | null };
  'bars-moved': { place: string };
  'bars-held': { reason: string };
  'bars-released': { note: string };
  /** So many bars got what they are sold in. `bars` 0: what went around some before was replaced. */
  'bars-wrapped': { bars: number; used: readonly PiecesUsed[]; note: string };
  'bars-sold': StockMoved;
  'bars-given': StockMoved;
  'bars-spoiled': StockMoved;
  'bars-taken': { count: number; at: string | null; note: string };
  /** `from` `buyer`: given back by `to`, who had them for that order. `was` `given`: not sold to them. `into` `aside`: kept apart, on no shelf. */
  'bars-brought-home': {
    count: number;
    from: 'away' | 'buyer' | 'aside';
    to: PersonId | null;
    at: string | null;
    note: string;
    was?: 'given';
    into?: 'aside';
  };
  /** Crossed out, never erased; what is right follows as an entry of its own. */
  'bars-corrected': { entry: EntryId; reason: CorrectReason; note: string };
}

export type BarsKind = keyof BarsBodies;
export type BarsEntry = { [K in BarsKind]: BarsHead & { readonly kind: K; readonly body: Readonly<BarsBodies[K]> } }[BarsKind];
export type BarsEntryOf<K extends BarsKind> = Extract<BarsEntry, { kind: K }>;

/** What `decide` returns: kind and body; the head is put on by the one place that knows ids and clocks. */
export type BarsDraft = { [K in BarsKind]: { readonly kind: K; readonly body: Readonly<BarsBodies[K]> } }[BarsKind];
