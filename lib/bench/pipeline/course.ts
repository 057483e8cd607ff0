import type { TemperatureReading } from '#lib/measure/reading';
import type { InstrumentId } from '#lib/units/id';
import { milliCelsius } from '#lib/units/temperature';
import type { TemperatureCourse } from '#lib/work/batch/index';
import type { ForecastLane } from '#lib/protocol/forecast';
import { followForetold } from './foretold';

/** The way lye and oils took, one mean for each minute, and what was foretold of it: kept when they are joined, volatile until then. */
export interface Course {
  heard(reading: TemperatureReading): void;
  /** What was forecast and noticed. */
  told(lane: ForecastLane): void;
  /** Another batch, or nobody knows how long the clock stood still. */
  forget(): void;
  /** The last two hours up to now, ms; `null` when nothing was heard. */
  of(now: number): TemperatureCourse | null;
}

const MINUTE_MS = 60_000;
const MOST_MINUTES = 120;

interface Minutes {
  readonly instrument: InstrumentId;
  readonly last: number;
  /** Sums by minute. */
  readonly kept: Map<number, { readonly sum: number; readonly count: number }>;
}

export const createCourse = (): Course => {
  const vessels = new Map<'lye' | 'oils', Minutes>();
  const foretold = followForetold();
  return {
    heard({ use, value, at, instrument }) {
      if ((use !== 'lye' && use !== 'oils') || value === null) return;
      const before = vessels.get(use);
      // One probe for each vessel; another only once that has been silent for a minute.
      if (before !== undefined && before.instrument !== instrument && at - before.last < MINUTE_MS) return;
      const kept = before?.kept ?? new Map<number, { sum: number; count: number }>();
      const minute = Math.floor(at / MINUTE_MS);
      const { sum, count } = kept.get(minute) ?? { sum: 0, count: 0 };
      kept.set(minute, { sum: sum + value, count: count + 1 });
      for (const old of kept.keys()) if (old <= minute - MOST_MINUTES) kept.delete(old);
      vessels.set(use, { instrument, last: at, kept });
    },
    told: (lane) => foretold.told(lane),
    forget() {
      vessels.clear();
      foretold.forget();
    },
    of(now) {
      const end = Math.floor(now / MINUTE_MS);
      const minutes = [...vessels.values()].flatMap(({ kept }) => [...kept.keys()]).filter((at) => at > end - MOST_MINUTES);
      if (minutes.length === 0) return null;
      const first = Math.min(...minutes);
      const row = (use: 'lye' | 'oils') =>
        Array.from({ length: end - first + 1 }, (_, i) => {
          const mean = vessels.get(use)?.kept.get(first + i);
          return mean === undefined ? null : milliCelsius(Math.round(mean.sum / mean.count));
        });
      return { everyS: MINUTE_MS / 1000, lye: row('lye'), oils: row('oils'), ...foretold.since((first * MINUTE_MS) / 1000) };
    },
  };
};
