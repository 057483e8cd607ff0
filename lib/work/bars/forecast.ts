import { forecastCure, learnFrom, seededNumbers } from '#lib/soap/shrink/index';
import type { CureForecast, CureWatch, MakerBelief, ReadyRule } from '#lib/soap/shrink/index';
import type { Lesson } from './cure';

/** A bar typed heavier than it can have been, or a clock that went back, are figures nothing follows from: no answer, and no end of the program. */
const worked = <T>(work: () => T): T | null => {
  try {
    return work();
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return null;
  }
};

/** What others than one lot teach. */
export const lessonsBut = (lessons: readonly Lesson[], id: string): readonly CureWatch[] =>
  lessons.flatMap((one) => (one.id === id ? [] : one.watch));

/** The belief in a maker after these lots, oldest first; one whose figures cannot be teaches nothing. */
export const beliefFrom = (lessons: readonly CureWatch[]): MakerBelief =>
  lessons.reduce((maker, lot) => worked(() => learnFrom([lot], maker)) ?? maker, learnFrom([]));

export interface LotAsked {
  readonly id: string;
  readonly watch: CureWatch;
  readonly rule: ReadyRule;
  /** Days since its day 0. */
  readonly today: number;
  readonly maker: MakerBelief;
}

/** Everything that is forecast of one lot, on a page and on the server alike; `null`: it cannot be worked out from these figures. */
export const forecastOf = ({ id, watch, rule, today, maker }: LotAsked): CureForecast | null =>
  worked(() => forecastCure({ watch, rule, today, maker, uniform: seededNumbers(seedOf(id)) }));

/** The same lot draws the same numbers, wherever it is forecast, so that a date does not dance between two looks nor two pages. */
const seedOf = (id: string): number => Array.from(id).reduce((sum, letter) => (sum * 31 + (letter.codePointAt(0) ?? 0)) % 1_000_003, 7);
