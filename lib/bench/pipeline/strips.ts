import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import type { ProbeUse, Reading } from '#lib/measure/reading';
import type { InstrumentId } from '#lib/units/id';
import type { Monotonic } from '#lib/units/time';

/** What the scale and the probes said during one pour, as it is stored: its SHA-256 stands in the weight's entry. */
export interface Strip {
  readonly sha256: string;
  readonly bytes: Uint8Array;
}

/** Keeps what was read in a bounded ring and cuts a strip out of it. */
export interface Strips {
  reading(reading: Reading): void;
  /** A pour begins on this scale: a container was set, or a weight accepted and the next line opened on it. */
  began(instrument: InstrumentId, at: Monotonic): void;
  /** From shortly before the pour began until `now`; `null` when nothing was read. */
  cut(instrument: InstrumentId, now: Monotonic): Strip | null;
}

/** Ten minutes at ten readings a second; a longer pour keeps its end. */
const KEPT = 6_000;
/** So that the set-down itself is in it. */
const BEFORE_MS = 3_000;

interface Sample {
  readonly at: number;
  /** Milligrams or thousandths of a degree; `null`: out of range, or no number. */
  readonly value: number | null;
}

export const createStrips = (): Strips => {
  const scales = new Map<InstrumentId, Sample[]>();
  const probes = new Map<ProbeUse, Sample[]>();
  const began = new Map<InstrumentId, number>();

  return {
    reading(reading) {
      if (reading.kind === 'mass') push(ringOf(scales, reading.instrument), { at: reading.at, value: reading.mass });
      else push(ringOf(probes, reading.use), { at: reading.at, value: reading.value });
    },
    began: (instrument, at) => void began.set(instrument, at),
    cut(instrument, now) {
      const ring = scales.get(instrument) ?? [];
      const from = (began.get(instrument) ?? ring[0]?.at ?? now) - BEFORE_MS;
      const scale = since(ring, from);
      if (scale.length === 0) return null;
      const beside = [...probes]
        .map(([use, samples]) => [use, packed(since(samples, from), from)] as const)
        .filter(([, p]) => p.length > 0);
      const bytes = utf8ToBytes(
        JSON.stringify({ v: 1, instrument, unit: 'mg', time: 'ms', scale: packed(scale, from), probes: Object.fromEntries(beside) }),
      );
      return { sha256: bytesToHex(sha256(bytes)), bytes };
    },
  };
};

const ringOf = <K>(rings: Map<K, Sample[]>, key: K): Sample[] => {
  const ring = rings.get(key) ?? [];
  rings.set(key, ring);
  return ring;
};

const push = (ring: Sample[], sample: Sample): void => {
  ring.push(sample);
  // Dropped by the block, so that a full ring costs nothing per reading.
  if (ring.length >= KEPT + 500) ring.splice(0, ring.length - KEPT);
};

const since = (ring: readonly Sample[], from: number): readonly Sample[] => {
  let first = ring.length;
  while (first > 0 && (ring[first - 1]?.at ?? 0) >= from) first -= 1;
  return ring.slice(first);
};

/** Pairs of steps in time and value, flat: [dt, dv, dt, dv, …], each from the one before it; `null` where there is no number. */
const packed = (samples: readonly Sample[], from: number): readonly (number | null)[] => {
  const flat: (number | null)[] = [];
  let at = from;
  let value = 0;
  for (const sample of samples) {
    flat.push(Math.round(sample.at - at), sample.value === null ? null : sample.value - value);
    at += Math.round(sample.at - at);
    value = sample.value ?? value;
  }
  return flat;
};
