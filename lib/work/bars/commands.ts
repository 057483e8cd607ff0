import type { BarsId, BatchId, EntryId } from '#lib/units/id';
import type { Milligrams } from '#lib/units/mass';
import type { MilliCelsius } from '#lib/units/temperature';
import type { CommandHead, Observation } from '../batch/commands';
import type { Realm, Typed } from '../batch/entries';
import type { BarsBodies, CorrectReason, NoteAbout, StockMoved, TrimHow, WeighedFor } from './entries';

/** What the server's own scale says at the moment of the decision. */
export type BarsObservation = Pick<Observation, 'settled' | 'capacity'> & {
  /** A batch is being weighed on this bench: its scales weigh nothing else. */
  readonly armed: BatchId | null;
  /** Highest settled weight used up in this boot, by whatever lot. */
  readonly spent: number;
};

/** A completed command about one bar lot, as `CommandHead` is about one batch. Nothing measured comes from a screen. */
export interface BarsCommandHead extends Omit<CommandHead, 'batch' | 'observation'> {
  readonly lot: BarsId;
  readonly observation: BarsObservation;
}

export interface BarsCommandBodies {
  /** What is known of the mould and its batch is the server's word. */
  begin: BarsBodies['bars-begun'] & { realm: Realm };
  /** `probe` is the server's word, never a page's. */
  'note-unmould': BarsBodies['bars-unmould-noted'];
  cut: BarsBodies['bars-cut'];
  trim: { how: TrimHow; bars: number; before: Milligrams; after: Milligrams };
  label: { net: Milligrams };
  weigh: BarsBodies['bars-weighed'];
  'type-weight': { bar: number | null; for: Exclude<WeighedFor, 'mass'>; typed: Typed };
  photo: { sha256: string; note: string };
  note: { about: NoteAbout; text: string; room: MilliCelsius | null; humidity: number | null };
  move: { place: string };
  hold: { reason: string };
  release: { note: string };
  /** What each piece is called is the server's word. */
  wrap: BarsBodies['bars-wrapped'];
  sell: StockMoved;
  give: StockMoved;
  spoil: StockMoved;
  take: { count: number; at: string | null; note: string };
  'bring-home': Omit<BarsBodies['bars-brought-home'], 'was' | 'into'> & { was?: 'sold' | 'given'; into?: ReturnedTo };
  /** One count after a market: what is neither home nor given was sold. `took` counts those taken along before. */
  'count-market': { took: number; home: number; gave: number; at: string | null; note: string };
  correct: { entry: EntryId; reason: CorrectReason; note: string };
}

/** What becomes of bars that come back from a buyer. */
export type ReturnedTo = 'stock' | 'aside' | 'spoiled';

export type BarsCommandKind = keyof BarsCommandBodies;
export type BarsWant = { [K in BarsCommandKind]: { readonly kind: K; readonly body: Readonly<BarsCommandBodies[K]> } }[BarsCommandKind];
export type BarsCommand = BarsCommandHead & BarsWant;
export type BarsCommandOf<K extends BarsCommandKind> = Extract<BarsCommand, { kind: K }>;
