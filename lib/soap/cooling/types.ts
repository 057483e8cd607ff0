/**
 * Where a vessel is going. Temperatures are °C and times seconds of one monotonic clock, as plain numbers; every value here is plain data
 * and may be kept, sent or compared as it is.
 */

/** One thing a probe said. */
export interface Sample {
  readonly at: number;
  readonly celsius: number;
}

/** Some 20 s of samples as one: their trimmed mean, at the mean of their times. */
export interface Block {
  readonly at: number;
  readonly celsius: number;
}

/** `probe`: measured beside the vessels; `said`: typed by a person; `null`: not known, and fitted within what workshops have. */
export type Room = { readonly kind: 'probe' | 'said'; readonly celsius: number } | null;

/** What stands in the vessel, as far as its cooling goes. */
export interface Contents {
  readonly kind: 'lye' | 'oils';
  /** The warmest at which a fat in it may begin to set and hold the temperature for a while; `null`: nothing in it sets. */
  readonly setsBelow: number | null;
}

/**
 * Why another law holds from a moment on: it cools faster than it did (a bath, ice, stirring), slower (a lid, less stirring), it warms
 * (a hob), it stands while a fat sets, its temperature leapt (something was poured in), or a person said it was moved.
 */
export type Turn = 'faster' | 'slower' | 'warms' | 'sets' | 'leapt' | 'said';

/** A change as it is drawn: when it began, and when it was noticed. The delay is the difference. */
export interface Mark {
  readonly turn: Turn;
  readonly since: number;
  readonly noticed: number;
}

/**
 * Why there is no forecast. `not-yet`: too little of the newest law was seen. `silent`: nothing was heard for a while. `rising`: it warms
 * away from the room. `suspect`: the newest readings do not fit what went before. `out`: the probe seems to hang in the air.
 * `wide`: there is a law, and it says next to nothing.
 */
export type NoForecast = 'nothing-heard' | 'not-yet' | 'silent' | 'rising' | 'suspect' | 'out' | 'wide';

/** One law that may hold, ΔT′ = −k ΔTⁿ towards `room`, with its probability. */
export interface Law {
  readonly share: number;
  readonly power: number;
  readonly room: number;
  /** Per second and K^(n−1); zero: it stands. */
  readonly k: number;
  readonly uK: number;
}

/** The forecast at one moment from now. */
export interface Ahead {
  /** Seconds from `Forecast.at`. */
  readonly after: number;
  readonly low: number;
  readonly middle: number;
  readonly high: number;
}

/** What the laws alone do not know, in K: at rest, and for each degree yet to go; and by how much this vessel's own hindcasts missed. */
export interface Doubt {
  readonly rest: number;
  readonly perDegree: number;
  readonly times: number;
}

/** 95 in 100 of what will be lies between `low` and `high`, at every moment for itself. */
export interface Forecast {
  readonly kind: 'forecast';
  readonly at: number;
  /** Since when the law holds that this rests on. */
  readonly since: number;
  /** Ascending from 0 to three hours; between two of them go straight. */
  readonly ahead: readonly Ahead[];
  /** Seconds from `at` up to which the interval is narrow enough to be told. */
  readonly until: number;
  /** A fat is setting now: the temperature stands, and nobody knows how long. */
  readonly setting: boolean;
  readonly laws: readonly Law[];
  readonly doubt: Doubt;
}

export type Outlook = Forecast | { readonly kind: 'none'; readonly why: NoForecast; readonly blocks: number; readonly needed: number };
