import type { MakingLane, PeakLane } from '#lib/protocol/forecast';
import { comparePeak, type StartAdvice } from '#lib/soap/lye/making';
import type { Estimate } from '#lib/soap/source';
import type { BatchState } from '#lib/work/batch/index';
import { lyeMade } from '#lib/work/batch/joining';
import { foretellLye, type LyeForetold } from '#lib/work/batch/lye-making';

/** Foretells how hot lye gets while its liquid stands there, and holds that against what it then does. */
export interface MakingWatch {
  /** Hydroxide went in: what was foretold last stands. */
  made(): void;
  /** A temperature of the liquid or the lye, °C. */
  heard(celsius: number): void;
  forget(): void;
  /** `liquid`: its newest temperature, °C, `null` where nothing is heard of it. */
  look(batch: BatchState | null, liquid: number | null): MakingLane | null;
}

/** Less is a probe's noise, K: lye has passed its top once it fell by more. */
const TURN = 1;

export const createMakingWatch = (): MakingWatch => {
  let foretold: LyeForetold | null = null;
  let begun = false;
  let highest: number | null = null;
  let last: number | null = null;
  let known: { readonly version: number; readonly start: number } | null = null;

  const ahead = (batch: BatchState, liquid: number | null): MakingLane | null => {
    if (liquid === null) return null;
    const start = Math.round(10 * liquid) / 10;
    if (known?.version !== batch.version || known.start !== start) {
      known = { version: batch.version, start };
      foretold = foretellLye(batch, start);
    }
    return foretold === null ? null : laneOf(foretold, adviceLane(foretold.advice), null);
  };

  return {
    made() {
      begun = true;
      highest = null;
    },
    heard(celsius) {
      last = celsius;
      highest = Math.max(highest ?? celsius, celsius);
    },
    forget() {
      [foretold, highest, last, known] = [null, null, null, null];
      begun = false;
    },
    look(batch, liquid) {
      if (batch === null || batch.status !== 'weighing') return null;
      // Of two hydroxides the first heats what the second goes into: what was foretold of both stands.
      if (!begun && !lyeMade(batch)) return ahead(batch, liquid);
      if (foretold === null) return null;
      const passed = highest !== null && last !== null && highest - foretold.start > TURN && highest - last > TURN;
      return laneOf(foretold, null, passed ? foundOf(foretold, highest ?? Number.NaN) : null);
    },
  };
};

const thousandths = (value: number): number => Math.round(1000 * value);
const peakLane = ({ value, u }: Estimate): PeakLane => ({ value: thousandths(value), u: thousandths(u) });

const laneOf = ({ start, peak }: LyeForetold, advice: MakingLane['advice'], found: MakingLane['found']): MakingLane => ({
  start: thousandths(start),
  likely: peakLane(peak.likely),
  atMost: peakLane(peak.atMost),
  advice,
  found,
});

const adviceLane = (advice: StartAdvice | null): MakingLane['advice'] => {
  if (advice === null) return null;
  if (advice.kind === 'cold') return { kind: 'cold', celsius: thousandths(advice.celsius) };
  return advice.kind === 'frozen' ? { kind: 'frozen', percent: Math.round(100 * advice.share) } : { kind: advice.kind };
};

const foundOf = ({ start, peak }: LyeForetold, highest: number): MakingLane['found'] => {
  const { verdict, reached } = comparePeak(peak, start, highest);
  return { highest: thousandths(highest), verdict, reached: Math.round(100 * reached) };
};
