import type { TemperatureReading } from '#lib/measure/reading';
import type { MakingLane, PeakLane } from '#lib/protocol/forecast';
import { comparePeak, type StartAdvice } from '#lib/soap/lye/making';
import type { Estimate } from '#lib/soap/source';
import { milliCelsius } from '#lib/units/temperature';
import type { BatchState, Want } from '#lib/work/batch/index';
import type { PeakForetold } from '#lib/work/batch/entries';
import { lyeMade } from '#lib/work/batch/joining';
import { foretellLye, type LyeForetold } from '#lib/work/batch/lye-making';

/** Foretells how hot lye gets while its liquid stands there, and holds that against what it then does; both are kept with the batch. */
export interface MakingWatch {
  /** Hydroxide went in: what was foretold last stands. */
  made(): void;
  /** What the probe of the liquid or the lye says; one without a value says nothing. */
  heard(reading: TemperatureReading): void;
  forget(): void;
  /** `liquid`: its newest temperature, °C, `null` where nothing is heard of it. */
  look(batch: BatchState | null, liquid: number | null): MakingLane | null;
  /** What the record should know: the top, once the lye has clearly come down from it. */
  wants(batch: BatchState | null): readonly Want[];
}

/** Less is a probe's noise, K: lye has passed its top once it fell by more. */
const TURN = 1;
/** By so much, thousandths of a K, before its top is kept: in portions it comes down a little between two. Ours. */
const KEPT_BELOW = 3_000;

/** The highest since hydroxide went in, where it began and what it says now; thousandths of a degree. */
interface Top {
  readonly first: number;
  readonly highest: number;
  readonly last: number;
  readonly source: { readonly instrument: TemperatureReading['instrument']; readonly raw: string };
}

/** °C. */
interface Told {
  readonly start: number;
  readonly likely: Pick<Estimate, 'value' | 'u'>;
  readonly atMost: Pick<Estimate, 'value' | 'u'>;
}

export const createMakingWatch = (): MakingWatch => {
  let foretold: LyeForetold | null = null;
  let begun = false;
  let top: Top | null = null;
  let wanted: number | null = null;
  let known: { readonly version: number; readonly start: number } | null = null;

  const ahead = (batch: BatchState, liquid: number | null): MakingLane | null => {
    if (liquid === null) return null;
    const start = Math.round(10 * liquid) / 10;
    if (known?.version !== batch.version || known.start !== start) {
      known = { version: batch.version, start };
      foretold = foretellLye(batch, start);
    }
    return foretold === null ? null : laneOf(toldOf(foretold), adviceLane(foretold.advice), null);
  };

  /** Nothing of it is said by a program that was not there when it was made, but what the record has. */
  const reached = ({ tops }: BatchState, { start }: Told): number | null => {
    const seen = begun && top !== null && top.highest / 1000 - start > TURN && top.highest - top.last > 1000 * TURN ? top.highest : null;
    return seen === null ? tops.lye : Math.max(seen, tops.lye ?? seen);
  };

  return {
    made() {
      begun = true;
      [top, wanted] = [null, null];
    },
    heard({ value, instrument, text }) {
      if (value === null) return;
      const source = { instrument, raw: text };
      if (top === null) top = { first: value, highest: value, last: value, source };
      else top = value > top.highest ? { ...top, highest: value, last: value, source } : { ...top, last: value };
    },
    forget() {
      [foretold, top, wanted, known] = [null, null, null, null];
      begun = false;
    },
    look(batch, liquid) {
      if (batch === null || batch.status !== 'weighing') return null;
      // Of two hydroxides the first heats what the second goes into: what was foretold of both stands.
      if (!begun && !lyeMade(batch)) return ahead(batch, liquid);
      const told = batch.lyeForetold === null ? (foretold === null ? null : toldOf(foretold)) : fromRecord(batch.lyeForetold);
      if (told === null) return null;
      const highest = reached(batch, told);
      return laneOf(told, null, highest === null ? null : foundOf(told, highest / 1000));
    },
    wants(batch) {
      if (batch === null || batch.status !== 'weighing' || !begun || top === null || !lyeMade(batch)) return [];
      const { first, highest, last, source } = top;
      const before = Math.max(wanted ?? -Infinity, batch.tops.lye ?? -Infinity);
      if (highest - first <= 1000 * TURN || highest - last < KEPT_BELOW || highest <= before) return [];
      wanted = highest;
      return [{ kind: 'note-temperature', body: { use: 'lye', value: milliCelsius(highest), why: 'peak', source } }];
    },
  };
};

const toldOf = ({ start, peak }: LyeForetold): Told => ({ start, ...peak });

const degrees = ({ value, u }: PeakForetold['likely']) => ({ value: value / 1000, u: u / 1000 });

const fromRecord = ({ start, likely, atMost }: PeakForetold): Told => {
  return { start: start / 1000, likely: degrees(likely), atMost: degrees(atMost) };
};

const thousandths = (value: number): number => Math.round(1000 * value);
const peakLane = ({ value, u }: Told['likely']): PeakLane => ({ value: thousandths(value), u: thousandths(u) });

const laneOf = ({ start, likely, atMost }: Told, advice: MakingLane['advice'], found: MakingLane['found']): MakingLane => ({
  start: thousandths(start),
  likely: peakLane(likely),
  atMost: peakLane(atMost),
  advice,
  found,
});

const adviceLane = (advice: StartAdvice | null): MakingLane['advice'] => {
  if (advice === null) return null;
  if (advice.kind === 'cold') return { kind: 'cold', celsius: thousandths(advice.celsius) };
  return advice.kind === 'frozen' ? { kind: 'frozen', percent: Math.round(100 * advice.share) } : { kind: advice.kind };
};

const foundOf = (told: Told, highest: number): MakingLane['found'] => {
  const { verdict, reached } = comparePeak(told, told.start, highest);
  return { highest: thousandths(highest), verdict, reached: Math.round(100 * reached) };
};
