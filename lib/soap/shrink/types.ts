/**
 * How bars lose weight while they cure. Days count from cutting; a loss is a fraction of the weight at cutting; masses are grams.
 * Everything here is plain data.
 */

/** What some tracked bars had lost by a day, together: 1 − Σ weight then ÷ Σ weight when they were first weighed. */
export interface Weighing {
  readonly day: number;
  readonly loss: number;
}

/** What is known of a lot of bars on the shelf. */
export interface CureWatch {
  /** Water in the bar as cut, as a fraction of it: of what was poured. */
  readonly water: number;
  /** Bars that are weighed each time, their mean weight at cutting, and the step of the scale. */
  readonly bars: number;
  readonly cutWeight: number;
  readonly step: number;
  /** Day on which they were first weighed; missing or 0: at cutting. */
  readonly from?: number;
  /** After the first; none yet is well. Days ascend. */
  readonly weighings: readonly Weighing[];
}

/** When a maker calls a bar ready: a number of days, a loss a week that it must fall below over 14 days, or both. */
export interface ReadyRule {
  /** From cutting; `null`: days do not count. */
  readonly days: number | null;
  /** Fraction of the cut weight in a week; `null`: loss does not count. */
  readonly perWeek: number | null;
}

/** 90 in 100 lie between `low` and `high`; the ends go outward to the last digit told. */
export interface Spread90 {
  readonly low: number;
  readonly middle: number;
  readonly high: number;
}

/** A day from cutting; `later`: past the last day that is forecast. */
export type Day = number | 'later';

export interface ReadySpread {
  readonly low: Day;
  readonly middle: Day;
  readonly high: Day;
}

/** The model's name, so that a page can say which one spoke. */
export type CureModel = 'stretched-exponential';

export interface CureForecast {
  readonly model: CureModel;
  /** How many of this maker's earlier lots it has learned from. */
  readonly learnedFrom: number;
  readonly weighings: number;
  readonly ready: ReadySpread;
  /** Chance that the rule is met by the day asked about. */
  readonly readyBy: number;
  /** Share of the cut weight that is lost on each whole day from 0 to `LAST_DAY`; past `SIMILAR_DAY` "if the room stays similar". */
  readonly loss: readonly Spread90[];
  /** As one more weighing would narrow the ready date most; `null`: nothing is left to narrow. */
  readonly next: NextWeighing | null;
}

export interface NextWeighing {
  readonly day: number;
  /** By how much the ready date's interval would be narrower, as a fraction of it; 0 where only the weight gains. */
  readonly narrows: number;
}

/** Nothing is forecast past this day: "later". No lot was followed longer when the model was tried. */
export const LAST_DAY = 120;
/** Past this day a forecast holds "if the room stays similar": another season may have begun. */
export const SIMILAR_DAY = 90;
/** Days over which a loss per week is looked at: checked day by day, 95 of 100 lots break the rule again after first meeting it. */
export const WINDOW = 14;
