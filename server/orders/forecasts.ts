import { setTimeout as sleep } from 'node:timers/promises';
import { forecastCure, seededNumbers } from '#lib/soap/shrink/index';
import type { CureForecast, CureWatch, MakerBelief } from '#lib/soap/shrink/index';
import { daysBetween as wholeDays, followedBy, lessonsIn, ruleOf } from '#lib/work/bars/cure';
import type { Followed } from '#lib/work/bars/cure';
import type { CureKept } from '#lib/work/bars/documents';
import { beliefFrom, forecastOf, lessonsBut } from '#lib/work/bars/forecast';
import type { BarsSummary } from '#lib/work/bars/index';

export interface LotForecast extends Followed {
  readonly forecast: CureForecast;
}

/**
 * Forecasts as far as they are there; `working`: of so many lots nothing is known yet by this rule and day. One bar sold or one weighing more
 * leaves the forecast of before standing until the next is there.
 */
export interface Forecasted {
  readonly found: ReadonlyMap<string, LotForecast>;
  readonly working: number;
}

/** Water of a batter nobody has weighed yet, and a bar of it: where the answer is days, they hardly matter. Common practice, no source. */
const USUAL: CureWatch = { water: 0.26, bars: 1, cutWeight: 125, step: 1, weighings: [] };
const SEED = 7;
/** Between two of them, so that a bench beside it goes on. */
const BREATH_MS = 5;

interface Asked {
  readonly id: string;
  readonly key: string;
  /** Rule and day: what was forecast by another is none. */
  readonly basis: string;
  /** `null`: it cannot be worked out from these figures. */
  readonly work: () => LotForecast | null;
}

/**
 * Forecasts of bar lots: some 20 ms each, worked out one after another with pauses, and kept until the lot, the rule, the day or what earlier
 * lots taught is another. Nobody waits for them who does not want to.
 */
export const createForecasts = (pause: () => Promise<unknown> = () => sleep(BREATH_MS)) => {
  const known = new Map<string, Pick<Asked, 'key' | 'basis'> & { readonly one: LotForecast | null }>();
  let wanted: readonly Asked[] = [];
  let running: Promise<void> | null = null;
  let usual: { readonly from: string; readonly forecast: CureForecast } | null = null;
  let learned: { readonly from: string; readonly maker: MakerBelief } | null = null;

  /** Most lots learn from the same lots: what those taught is kept. */
  const makerOf = (lessons: readonly CureWatch[]): MakerBelief => {
    const from = JSON.stringify(lessons);
    if (learned?.from !== from) learned = { from, maker: beliefFrom(lessons) };
    return learned.maker;
  };

  const asked = (rows: readonly BarsSummary[], taught: readonly BarsSummary[], kept: CureKept, wall: number): readonly Asked[] => {
    const rule = ruleOf(kept);
    const all = lessonsIn(taught);
    return rows.flatMap((row): readonly Asked[] => {
      const followed = followedBy(row);
      if (typeof followed === 'string') return [];
      const today = wholeDays(followed.from, wall);
      const lessons = lessonsBut(all, row.id);
      const by = all.flatMap(({ id, watch }) => (id === row.id ? [] : [[id, watch.weighings.length]]));
      const key = JSON.stringify([row.version, rule, today, by]);
      const work = (): LotForecast | null => {
        const forecast = forecastOf({ id: row.id, watch: followed.watch, rule, today, maker: makerOf(lessons) });
        return forecast === null ? null : { ...followed, forecast };
      };
      return [{ id: row.id, key, basis: JSON.stringify([rule, today]), work }];
    });
  };

  const isThere = ({ id, key }: Asked): boolean => known.get(id)?.key === key;

  const workOff = async (): Promise<void> => {
    for (let next = wanted.find((one) => !isThere(one)); next !== undefined; next = wanted.find((one) => !isThere(one))) {
      known.set(next.id, { key: next.key, basis: next.basis, one: next.work() });
      await pause();
    }
    running = null;
  };

  return {
    /**
     * At once: what is not there yet is begun, and stands as it was before where it was. `taught`: lots that teach, gone ones among them, as on
     * the pages of bars, which would tell other days else.
     */
    now(rows: readonly BarsSummary[], taught: readonly BarsSummary[], kept: CureKept, wall: number): Forecasted {
      wanted = asked(rows, taught, kept, wall);
      const ids = new Set(wanted.map(({ id }) => id));
      for (const id of known.keys()) if (!ids.has(id)) known.delete(id);
      const working = wanted.filter(({ id, basis }) => known.get(id)?.basis !== basis).length;
      if (!wanted.every(isThere)) running ??= pause().then(workOff);
      return { found: new Map([...known].flatMap(([id, { one }]) => (one === null ? [] : [[id, one]]))), working };
    },
    /** Resolves when everything asked for is worked out. */
    async settled(): Promise<void> {
      await running;
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
