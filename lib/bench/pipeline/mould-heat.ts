import type { TemperatureReading } from '#lib/measure/reading';
import { milliCelsius } from '#lib/units/temperature';
import type { MilliCelsius } from '#lib/units/temperature';
import type { BatchState, Want } from '#lib/work/batch/index';

/**
 * Soap in its mould warms by itself: follows a probe that stands there until that heat has passed its top, and wants it kept. Volatile; after
 * a restart it goes by what the record has: the batter's last temperature, and a top that was kept.
 */
export interface MouldHeat {
  heard(reading: TemperatureReading): void;
  forget(): void;
  /** What the record should know; once for each top. */
  wants(batch: BatchState | null): readonly Want[];
}

/** K by which it rises before that is heat of its own, and falls again before the top is past: common practice, no source. */
const ROSE = 3_000;
const FELL = 1_500;
/** After a restart by so much above what the batter last had: how it rose nobody saw. Ours. */
const ROSE_UNSEEN = 8_000;
/** And for so long: a draught is no end of it. */
const FOR_MS = 300_000;

interface Top {
  /** Before the top, and so far. */
  readonly lowest: number;
  readonly low: number;
  readonly highest: MilliCelsius;
  readonly source: { readonly instrument: TemperatureReading['instrument']; readonly raw: string };
  /** Since when it has lain below the top; `null`: it does not. */
  readonly fallenSince: number | null;
  readonly at: number;
}

/** The warmest that is known of the batter before it went into its mould; `null`: nothing. */
const batterOf = ({ trace, joined }: BatchState): number | null => {
  const known = [trace.at(-1)?.batter ?? null, joined?.lye ?? null, joined?.oils ?? null].filter((one) => one !== null);
  return known.length === 0 ? null : Math.max(...known);
};

export const createMouldHeat = (): MouldHeat => {
  let of: string | null = null;
  let top: Top | null = null;
  let kept: number | null = null;
  /** The batch whose beginning was seen here; another one's top is told from the record. */
  let begun: string | null = null;
  let before: number | null = null;
  return {
    heard({ use, value, at, instrument, text }) {
      if (use !== 'mould' || value === null || of === null) return;
      const source = { instrument, raw: text };
      const low = Math.min(top?.low ?? value, value);
      if (top === null || value > top.highest) top = { lowest: low, low, highest: milliCelsius(value), source, fallenSince: null, at };
      else top = { ...top, low, at, fallenSince: value > top.highest - FELL ? null : (top.fallenSince ?? at) };
    },
    forget: () => void (top = null),
    wants(batch) {
      const id = batch !== null && batch.joined !== null && (batch.status === 'joined' || batch.status === 'closed') ? batch.id : null;
      if (batch !== null && batch.joined === null) begun = batch.id;
      if (id !== of) {
        [of, top] = [id, null];
        kept = batch?.tops.mould ?? null;
        before = batch === null || begun === batch.id ? null : batterOf(batch);
      }
      if (top === null || top.fallenSince === null || top.at - top.fallenSince < FOR_MS) return [];
      const { highest, lowest, source } = top;
      const rose = highest - lowest >= ROSE || (before !== null && highest - before >= ROSE_UNSEEN);
      if (!rose || (kept !== null && highest <= kept)) return [];
      kept = highest;
      return [{ kind: 'note-temperature', body: { use: 'mould', value: highest, why: 'peak', source } }];
    },
  };
};
