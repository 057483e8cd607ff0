import { setImmediate as turn } from 'node:timers/promises';
import { forecastCure, learnFrom, seededNumbers } from '#lib/soap/shrink/index';
import type { CureForecast, CureWatch, MakerBelief } from '#lib/soap/shrink/index';
import { daysBetween as wholeDays, followedBy, lessonsIn, ruleOf } from '#lib/work/bars/cure';
import type { Followed } from '#lib/work/bars/cure';
import type { CureKept } from '#lib/work/bars/documents';
import type { BarsSummary } from '#lib/work/bars/index';

export interface LotForecast extends Followed {
  readonly forecast: CureForecast;
}

/** Water of a batter nobody has weighed yet, and a bar of it: where the answer is days, they hardly matter. Common practice, no source. */
const USUAL = { water: 0.26, bars: 1, cutWeight: 125, step: 1, weighings: [] };
const SEED = 7;

/**
 * Forecasts of bar lots, one for each state of a lot, its rule and its day: some 30 ms each, and never two in one turn of the loop, so that
 * a bench beside it goes on.
 */
export const createForecasts = (pause: () => Promise<unknown> = turn) => {
  const known = new Map<string, LotForecast>();
  let usual: { readonly from: string; readonly forecast: CureForecast } | null = null;
  let learned: { readonly from: string; readonly maker: MakerBelief } | null = null;
  /** Most lots learn from the same lots: what those taught is kept. */
  const makerOf = (lessons: readonly CureWatch[]): MakerBelief => {
    const from = JSON.stringify(lessons);
    if (learned?.from !== from) learned = { from, maker: learnFrom(lessons) };
    return learned.maker;
  };
  return {
    async of(rows: readonly BarsSummary[], kept: CureKept, wall: number): Promise<ReadonlyMap<string, LotForecast>> {
      const rule = ruleOf(kept);
      const all = lessonsIn(rows);
      const found = new Map<string, LotForecast>();
      const used = new Set<string>();
      for (const row of rows) {
        const followed = followedBy(row);
        if (typeof followed === 'string') continue;
        const today = wholeDays(followed.from, wall);
        const lessons = all.filter(({ id }) => id !== row.id).map(({ watch }) => watch);
        const key = JSON.stringify([row.id, row.version, rule, today, lessons.length]);
        used.add(key);
        let one = known.get(key);
        if (one === undefined) {
          await pause();
          const forecast = forecastCure({ watch: followed.watch, rule, today, maker: makerOf(lessons), uniform: seededNumbers(SEED) });
          one = { ...followed, forecast };
          known.set(key, one);
        }
        found.set(row.id, one);
      }
      for (const key of known.keys()) if (!used.has(key)) known.delete(key);
      return found;
    },
    /** Of bars nobody has weighed: by the rule and what earlier lots taught. */
    unweighed(rows: readonly BarsSummary[], kept: CureKept): CureForecast {
      const rule = ruleOf(kept);
      const lessons = lessonsIn(rows).map(({ watch }) => watch);
      const from = JSON.stringify([rule, lessons]);
      if (usual?.from !== from)
        usual = { from, forecast: forecastCure({ watch: USUAL, rule, today: 0, maker: makerOf(lessons), uniform: seededNumbers(SEED) }) };
      return usual.forecast;
    },
  };
};

export type Forecasts = ReturnType<typeof createForecasts>;
