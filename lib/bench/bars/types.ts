import type { InstrumentId } from '#lib/units/id';
import type { WeighedFor } from '#lib/work/bars/index';

/**
 * What the bench does with bars now. `empty`: the pan is to be free before anything counts; `put-on`: the next bar; `offer`: settled, taken
 * by itself in a moment; `ask`: settled and unlike what was expected, a person goes on; `taken`: lift it; `changed`: it moved after it was
 * taken; `no-weight`: the scale says nothing to go by; `busy`: a batch is being weighed; `done`: every bar of the round is.
 */
export type BarsPhase = 'empty' | 'put-on' | 'settling' | 'offer' | 'ask' | 'taken' | 'changed' | 'no-weight' | 'busy' | 'done';

/** Why nothing is taken by itself although a bar may lie there. */
export type BarsWhy =
  | 'lost' // silent, late or unplugged
  | 'suspect'
  | 'underload'
  | 'not-led' // nobody holds the bench
  | 'unlike' // not what this bar weighed, or what a bar of this lot weighs
  | 'used-up' // this settled weight is in the record already
  | 'refused'; // the record did not take it

/** mg. `like`: what it goes by, the bar's `own` last weight or others of its lot, from so many days ago. */
export interface ExpectedBar {
  readonly low: number;
  readonly high: number;
  readonly like: number;
  readonly own: boolean;
  readonly days: number;
}

export interface BarsCue {
  readonly lot: string;
  readonly mark: string;
  readonly name: string;
  readonly for: WeighedFor;
  readonly phase: BarsPhase;
  readonly why: BarsWhy | null;
  readonly scale: InstrumentId | null;
  /** The bar that is asked for or lies there; `null`: any of them. */
  readonly bar: number | null;
  /** So many of the round are weighed. */
  readonly done: number;
  readonly of: number;
  /** What the free pan reads, mg; `null`: not seen free. */
  readonly zero: number | null;
  /** Settled net, mg. */
  readonly net: number | null;
  /** What it should about weigh; `null`: nobody knows. */
  readonly expected: ExpectedBar | null;
  /** Newest that was taken in this round. */
  readonly last: { readonly bar: number | null; readonly net: number } | null;
  readonly acceptsIn: number | null;
  /** A press means what the screen showed: of another number it means nothing. */
  readonly step: number;
}

/** One scale as the round sees it at a moment. Masses in mg. */
export interface Pan {
  readonly instrument: InstrumentId;
  /** Fresh, in range and not suspect. */
  readonly why: 'late' | 'lost' | 'suspect' | 'underload' | null;
  readonly division: number;
  /** How closely it tells two settled weights apart. */
  readonly within: number;
  /** What the pan reads when nobody has put anything on it, and whether that was seen. */
  readonly empty: number;
  readonly emptySeen: boolean;
  readonly settled: { readonly gross: number; readonly episode: number } | null;
}
