import type { InstrumentConfig } from '#lib/measure/instrument';
import type { MassReading, ProbeUse, Reading, TemperatureReading } from '#lib/measure/reading';
import { forget, heard, NEVER_HEARD } from '#lib/measure/readings/age';
import type { Age } from '#lib/measure/readings/age';
import { afterStall, arrived, NO_ARRIVALS } from '#lib/measure/readings/burst';
import type { Arrivals, Stall } from '#lib/measure/readings/burst';
import { judgeProbe, massSuspect, NEW_PROBE } from '#lib/measure/readings/suspect';
import type { ProbeMemory } from '#lib/measure/readings/suspect';
import type { InstrumentId } from '#lib/units/id';
import { grams } from '#lib/units/mass';
import type { Milligrams } from '#lib/units/mass';
import { milliCelsius } from '#lib/units/temperature';
import type { MilliCelsius, MilliKelvin } from '#lib/units/temperature';
import type { Monotonic } from '#lib/units/time';

export type ScaleConfig = Extract<InstrumentConfig, { kind: 'scale' }>;
export type ProbeConfig = Extract<InstrumentConfig, { kind: 'probe' }>;

interface Heard {
  readonly age: Age;
  readonly arrivals: Arrivals;
}
export interface ScaleWatch extends Heard {
  readonly config: ScaleConfig;
  readonly reading: MassReading | null;
  readonly suspect: string | null;
  /** Last value that could be shown, kept apart from the newest reading: shown as "last 412.6 g, 9 s ago" only. */
  readonly last: { readonly gross: Milligrams; readonly at: Monotonic } | null;
}
export interface ProbeWatch extends Heard {
  readonly config: ProbeConfig;
  readonly use: ProbeUse;
  readonly memory: ProbeMemory;
  readonly reading: TemperatureReading | null;
  readonly last: { readonly value: MilliCelsius; readonly at: Monotonic } | null;
  /** What was added to the newest value by this probe's check; `null`: it was never checked. */
  readonly correction: MilliKelvin | null;
}

/** What a probe in one place is to be corrected by at a value it shows; `null`: never checked. */
export type Corrections = (instrument: InstrumentId, use: ProbeUse, shown: MilliCelsius) => MilliKelvin | null;

/** Assumed of a scale that has said nothing yet and of which nobody has told. */
const UNKNOWN_DIVISION = grams(1);

export const divisionOf = (scale: ScaleWatch): Milligrams => scale.config.division ?? scale.reading?.step ?? UNKNOWN_DIVISION;

/** Every instrument of the bench followed through time: what it said last, how old that is, and whether to believe it. */
export interface Watch {
  scales(): readonly ScaleWatch[];
  /** One for each place a probe is known to stand in; an instrument with several channels counts for several. */
  probes(): readonly ProbeWatch[];
  /** Takes in a reading; the one to go by comes back, `null` when it may have waited through a stall and is thrown away. */
  take(reading: Reading): Reading | null;
  /** The loop stood still: what drains now is old. */
  stalled(stall: Stall): void;
  /** The port is gone: its values are lost at once. */
  lost(instrument: InstrumentId): void;
  /** After a suspend or a step of the clock everything is lost until it is heard again. */
  forgetAll(): void;
}

const UNHEARD: Heard = { age: NEVER_HEARD, arrivals: NO_ARRIVALS };

export const createWatch = (configs: readonly InstrumentConfig[], corrections: Corrections = () => null): Watch => {
  const scales = new Map<InstrumentId, ScaleWatch>();
  const probes = new Map<string, ProbeWatch>();
  const probeConfigs = new Map<InstrumentId, ProbeConfig>();
  for (const config of configs) {
    if (config.kind === 'scale') scales.set(config.id, { ...UNHEARD, config, reading: null, suspect: null, last: null });
    else {
      probeConfigs.set(config.id, config);
      if (config.use !== null) probes.set(keyOf(config.id, config.use), newProbe(config, config.use));
    }
  }

  const takeMass = (reading: MassReading): Reading | null => {
    const before = scales.get(reading.instrument);
    if (before === undefined) return null;
    const { arrivals, pace } = arrived(before.arrivals, reading.at, before.age.period);
    if (pace === 'stall-discard') {
      scales.set(reading.instrument, { ...before, arrivals });
      return null;
    }
    const suspect = massSuspect(reading, before.config.capacity, divisionOf({ ...before, reading }));
    const last = reading.mass === null || suspect !== null ? before.last : { gross: reading.mass, at: reading.at };
    scales.set(reading.instrument, { ...before, age: heard(before.age, reading.at), arrivals, reading, suspect, last });
    return reading;
  };

  const takeTemperature = (reading: TemperatureReading): Reading | null => {
    const config = probeConfigs.get(reading.instrument);
    if (config === undefined) return null;
    const key = keyOf(reading.instrument, reading.use);
    const before = probes.get(key) ?? newProbe(config, reading.use);
    const { arrivals, pace } = arrived(before.arrivals, reading.at, before.age.period);
    if (pace === 'stall-discard') {
      probes.set(key, { ...before, arrivals });
      return null;
    }
    // Judged as it came: what a sensor says when it fails is known uncorrected.
    const judged = judgeProbe(before.memory, reading);
    const shown = judged.reading.value;
    const correction = shown === null ? before.correction : corrections(reading.instrument, reading.use, shown);
    const value = shown === null ? null : milliCelsius(shown + (correction ?? 0));
    const read = { ...judged.reading, value };
    const last = value === null ? before.last : { value, at: reading.at };
    probes.set(key, { ...before, age: heard(before.age, reading.at), arrivals, memory: judged.memory, reading: read, last, correction });
    return read;
  };

  const each = (change: <W extends Heard & { config: InstrumentConfig }>(watch: W) => W): void => {
    for (const [key, watch] of scales) scales.set(key, change(watch));
    for (const [key, watch] of probes) probes.set(key, change(watch));
  };

  return {
    scales: () => [...scales.values()],
    probes: () => [...probes.values()],
    take: (reading) => (reading.kind === 'mass' ? takeMass(reading) : takeTemperature(reading)),
    stalled: (stall) => each((watch) => ({ ...watch, arrivals: afterStall(stall) })),
    lost: (instrument) => each((watch) => (watch.config.id === instrument ? { ...watch, age: forget(watch.age) } : watch)),
    forgetAll: () => each((watch) => ({ ...watch, age: forget(watch.age) })),
  };
};

const keyOf = (instrument: InstrumentId, use: ProbeUse): string => `${instrument} ${use}`;

const newProbe = (config: ProbeConfig, use: ProbeUse): ProbeWatch => ({
  ...UNHEARD,
  config,
  use,
  memory: NEW_PROBE,
  reading: null,
  last: null,
  correction: null,
});
