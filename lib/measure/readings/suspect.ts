import type { Milligrams } from '#lib/units/mass';
import { type MilliCelsius, celsius } from '#lib/units/temperature';
import type { Monotonic } from '#lib/units/time';
import type { MassReading, ProbeFault, TemperatureReading } from '../reading';

/** What a kind of sensor says when it has nothing to say, and what it can measure at all. */
export interface ProbeDriver {
  readonly lowest: MilliCelsius;
  readonly highest: MilliCelsius;
  readonly sentinels: readonly Sentinel[];
}

export interface Sentinel {
  readonly value: MilliCelsius;
  readonly fault: ProbeFault;
  /** Also a fault as the very first value, with nothing to contradict it. */
  readonly evenFirst: boolean;
}

/**
 * Any sensor behind our probe line. Range: DS18B20 data sheet. Sentinels: that sheet's power-on value of 85; -127 from the common
 * one-wire library when the sensor is lost; 127.94 and 25 from imitations after a failed conversion and at power-up; 0 from
 * thermocouple boards with an open input (as users of those drivers report). 25 is a common room, so it counts only against
 * another value known before.
 */
const ANY_PROBE: ProbeDriver = {
  lowest: celsius(-55),
  highest: celsius(125),
  sentinels: [
    { value: celsius(85), fault: 'power-on-value', evenFirst: true },
    { value: celsius(-127), fault: 'disconnected', evenFirst: true },
    { value: celsius(127.94), fault: 'probe-error', evenFirst: true },
    { value: celsius(25), fault: 'power-on-value', evenFirst: false },
    { value: celsius(0), fault: 'probe-error', evenFirst: true },
  ],
};

/** What is remembered of one probe between readings. */
export interface ProbeMemory {
  readonly trusted: Point | null;
  /** The reading before this one was trusted. */
  readonly unbroken: boolean;
  /** A level unlike the trusted one, on its way to being believed. */
  readonly rival: (Point & { readonly since: Monotonic; readonly count: number }) | null;
}

interface Point {
  readonly value: MilliCelsius;
  readonly at: Monotonic;
}

export const NEW_PROBE: ProbeMemory = { trusted: null, unbroken: false, rival: null };

/** Faster than any pot or lye changes; a probe carried from one vessel to the other is slower to be believed. Common practice, no source. */
const JUMP_MK = 3000;
const JUMP_MK_PER_MS = 5;
/** Silence does not widen what is believed for ever: after a longer one a value far off has to agree with itself first. */
const JUMP_MOST_MS = 2000;
const BELIEVED_COUNT = 3;
const BELIEVED_MS = 1000;

/** A ramp that truly reaches a sentinel was next to it one reading ago. Dissolving lye climbs about 2 K/s at most (common practice, no source). */
const RAMP_MS = 2000;
const RAMP_MK = 500;
const RAMP_MK_PER_MS = 2;

/**
 * Judges one reading by what the probe said before. A suspect value comes back as the same reading without its number and with the
 * fault that names the reason: never a number, and never silently nothing. Pure.
 */
export const judgeProbe = (
  memory: ProbeMemory,
  reading: TemperatureReading,
  driver: ProbeDriver = ANY_PROBE,
): { memory: ProbeMemory; reading: TemperatureReading } => {
  const { value, at } = reading;
  if (value === null) return { memory: { ...memory, unbroken: false, rival: null }, reading };
  const here: Point = { value, at };
  const fault = sentinelFault(memory, here, driver) ?? rangeFault(value, driver);
  if (fault !== null) return refused({ ...memory, unbroken: false, rival: null }, reading, fault);
  if (memory.trusted === null || near(memory.trusted, here, JUMP_MK, JUMP_MK_PER_MS)) return trust(here, reading);
  const rival = followRival(memory, here);
  if (rival.count >= BELIEVED_COUNT && at - rival.since >= BELIEVED_MS) return trust(here, reading);
  return refused({ ...memory, unbroken: false, rival }, reading, 'jump');
};

const trust = (here: Point, reading: TemperatureReading): { memory: ProbeMemory; reading: TemperatureReading } => ({
  memory: { trusted: here, unbroken: true, rival: null },
  reading,
});

const refused = (
  memory: ProbeMemory,
  reading: TemperatureReading,
  fault: ProbeFault,
): { memory: ProbeMemory; reading: TemperatureReading } => ({ memory, reading: { ...reading, value: null, fault } });

const near = (before: Point, here: Point, fixed: number, perMs: number): boolean =>
  Math.abs(here.value - before.value) <= fixed + perMs * Math.min(here.at - before.at, JUMP_MOST_MS);

const sentinelFault = (memory: ProbeMemory, here: Point, driver: ProbeDriver): ProbeFault | null => {
  const sentinel = driver.sentinels.find(({ value }) => value === here.value);
  if (sentinel === undefined) return null;
  const { trusted, unbroken } = memory;
  if (trusted === null) return sentinel.evenFirst ? sentinel.fault : null;
  const reached = unbroken && here.at - trusted.at <= RAMP_MS && near(trusted, here, RAMP_MK, RAMP_MK_PER_MS);
  return reached ? null : sentinel.fault;
};

const rangeFault = (value: MilliCelsius, driver: ProbeDriver): ProbeFault | null =>
  value < driver.lowest || value > driver.highest ? 'out-of-range' : null;

const followRival = ({ rival }: ProbeMemory, here: Point): NonNullable<ProbeMemory['rival']> =>
  rival !== null && near(rival, here, JUMP_MK, JUMP_MK_PER_MS)
    ? { ...here, since: rival.since, count: rival.count + 1 }
    : { ...here, since: here.at, count: 1 };

/**
 * Why a weight cannot be one: more than nine divisions beyond the scale's capacity, where a scale shows nothing (OIML R 76-1, limits of
 * indication: Max + 9 e). There is no limit on how fast a mass may change: a vessel set down is a jump of any size in one frame.
 */
export const massSuspect = (reading: MassReading, capacity: Milligrams | null, division: Milligrams): 'beyond-capacity' | null =>
  capacity !== null && reading.mass !== null && reading.mass > capacity + 9 * division ? 'beyond-capacity' : null;
