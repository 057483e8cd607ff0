import type { TemperatureReading } from '#lib/measure/reading';
import { milliCelsius } from '#lib/units/temperature';
import type { MilliCelsius } from '#lib/units/temperature';
import type { BatchState, Want } from '#lib/work/batch/index';

/** Soap in its mould warms by itself: follows a probe that stands there until that heat has passed its top, and wants it kept. Volatile. */
export interface MouldHeat {
  heard(reading: TemperatureReading): void;
  forget(): void;
  /** What the record should know; once for each top. */
  wants(batch: BatchState | null): readonly Want[];
}

/** K by which it rises before that is heat of its own, and falls again before the top is past: common practice, no source. */
const ROSE = 3_000;
const FELL = 1_500;
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

export const createMouldHeat = (): MouldHeat => {
  let of: string | null = null;
  let top: Top | null = null;
  let kept: number | null = null;
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
      if (id !== of) [of, top, kept] = [id, null, null];
      if (top === null || top.fallenSince === null || top.at - top.fallenSince < FOR_MS) return [];
      const { highest, lowest, source } = top;
      if (highest - lowest < ROSE || (kept !== null && highest <= kept)) return [];
      kept = highest;
      return [{ kind: 'note-temperature', body: { use: 'mould', value: highest, why: 'peak', source } }];
    },
  };
};
