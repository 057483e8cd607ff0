import type { InstrumentId } from '#lib/units/id';
import type { MassUnit, Milligrams } from '#lib/units/mass';
import type { MilliCelsius } from '#lib/units/temperature';
import type { Monotonic } from '#lib/units/time';

/** What the instrument itself says of motion; `unstated` when its frame has no such mark. */
export type Motion = 'stable' | 'moving' | 'unstated';

/** `over` and `under`: the instrument is outside its range and states no usable weight. */
export type Range = 'in' | 'over' | 'under';

interface ReadingOf {
  readonly instrument: InstrumentId;
  /** Counts readings of this instrument since its port was opened, from 1. */
  readonly seq: number;
  /** Monotonic arrival of the chunk that completed the frame, stamped before framing. */
  readonly at: Monotonic;
  /** The frame as it came, whole, without its line ending. */
  readonly raw: Uint8Array;
}

export interface MassReading extends ReadingOf {
  readonly kind: 'mass';
  /** The instrument's own decimal text, spaces dropped: `-183.69`. Empty when out of range. */
  readonly text: string;
  readonly unit: MassUnit;
  /** `null` exactly when `range` is not `in`. */
  readonly mass: Milligrams | null;
  /** Step of the last digit shown. */
  readonly step: Milligrams;
  readonly motion: Motion;
  readonly range: Range;
  readonly weighing: 'gross' | 'net' | 'unstated';
}

/** Which vessel a probe stands in. */
export type ProbeUse = 'lye' | 'oils' | 'room' | 'batter' | 'mould';

/** Why a temperature is a word and not a number. */
export type ProbeFault =
  'disconnected' | 'shorted' | 'power-on-value' | 'checksum' | 'out-of-range' | 'jump' | 'not-a-number' | 'probe-error';

export interface TemperatureReading extends ReadingOf {
  readonly kind: 'temperature';
  readonly use: ProbeUse;
  /** `null` exactly when `fault` is not `null`. */
  readonly value: MilliCelsius | null;
  readonly text: string;
  readonly fault: ProbeFault | null;
}

export type Reading = MassReading | TemperatureReading;

/** Age is the server's, from its own monotonic clock. A lost value is no number anywhere. */
export type Freshness = 'fresh' | 'late' | 'lost';
