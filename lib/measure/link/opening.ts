import { PROBE_SHAPES, SCALE_SHAPES, type Shape } from '../shape';
import type { InstrumentConfig } from '../instrument';
import type { Reading } from '../reading';
import { createIdentifier, createWire, FRAME_CAP, type Wire, type WireSink } from '../wire/index';
import { monotonic, type Monotonic } from '#lib/units/time';

/** Calm after the first byte before a reading passes, ms: opening may have rebooted the instrument. Common practice, no source. */
const SETTLE_MS = 700;
/** Longest wait for that calm, ms: a line that is always a little noisy must not stay silent. */
const SETTLE_LIMIT_MS = 3_000;
/** After so long without a fitting answer the listening begins anew, ms: cables may have been swapped behind the adapters. */
const RENEW_MS = 6_000;

export interface OpeningSink extends WireSink {
  /** A good frame before proof or settling: no reading yet. */
  withheld(reading: Reading): void;
  /** Bytes nobody can read yet, because no shape is known. */
  unread(bytes: Uint8Array): void;
}

/** One opening of one port: proves by its frames what hangs there and lets readings pass only then. A new one for every open. */
export interface Opening {
  push(chunk: Uint8Array, at: Monotonic): void;
  idle(now: Monotonic): void;
  /** What the frames have proved; `null` until then. */
  heard(): Shape | null;
  /** Proved, but not what belongs on this port. */
  stranger(): boolean;
}

export interface OpeningParts {
  readonly config: InstrumentConfig;
  /** The shape somebody chose or an earlier opening proved; `null`: any shape of the instrument's kind. */
  readonly expected: Shape | null;
  readonly sink: OpeningSink;
}

export const createOpening = ({ config, expected, sink }: OpeningParts): Opening => {
  const calm = createCalm();
  const before: { readonly chunk: Uint8Array; readonly at: Monotonic }[] = [];
  let bytesBefore = 0;
  let arrived = monotonic(0);
  let identifier = createIdentifier();
  let listeningSince: Monotonic | null = null;
  let heard: Shape | null = null;
  let proved = false;

  const gate: WireSink = {
    reading(reading) {
      if (proved && calm.reached(arrived)) sink.reading(reading);
      else sink.withheld(reading);
    },
    fault(fault, raw) {
      // Anything that is no frame at all may be the greeting of an instrument that has just started.
      if (fault === 'grammar' || fault === 'not-ascii') calm.disturbed(arrived);
      sink.fault(fault, raw);
    },
  };
  const wireOf = (shape: Shape): Wire =>
    createWire({ shape, instrument: config.id, use: config.kind === 'probe' ? config.use : null, sink: gate });
  let wire = expected === null ? null : wireOf(expected);

  const keep = (chunk: Uint8Array, at: Monotonic): void => {
    before.push({ chunk, at });
    bytesBefore += chunk.length;
    while (bytesBefore > FRAME_CAP && before.length > 1) bytesBefore -= before.shift()?.chunk.length ?? 0;
    sink.unread(chunk);
  };

  const read = (through: Wire, chunk: Uint8Array, at: Monotonic): void => {
    arrived = at;
    through.push(chunk, at);
  };

  /** Listens until the frames have proved something fitting. */
  const prove = (chunk: Uint8Array, at: Monotonic): void => {
    listeningSince ??= at;
    if (at - listeningSince >= RENEW_MS) {
      identifier = createIdentifier();
      listeningSince = at;
    }
    const answer = identifier.push(chunk, at);
    if (answer === null) return;
    heard = answer;
    if (!belongs(config, expected, heard)) return;
    proved = true;
    if (wire !== null) return;
    wire = wireOf(heard);
    // What came so far shows the new wire where frames begin. No reading of it passes: proof comes first.
    proved = false;
    for (const kept of before.splice(0)) read(wire, kept.chunk, kept.at);
    proved = true;
  };

  return {
    push(chunk, at) {
      calm.began(at);
      if (wire === null) keep(chunk, at);
      else read(wire, chunk, at);
      if (!proved) prove(chunk, at);
    },
    idle(now) {
      wire?.idle(now);
    },
    heard: () => heard,
    stranger: () => heard !== null && !proved,
  };
};

const belongs = (config: InstrumentConfig, expected: Shape | null, heard: Shape): boolean => {
  if (expected !== null) return heard === expected;
  const shapes: readonly Shape[] = config.kind === 'scale' ? SCALE_SHAPES : PROBE_SHAPES;
  return shapes.includes(heard);
};

/** Waits for the line to have been calm for a while after it first spoke. Once calm, it stays so for this opening. */
const createCalm = () => {
  let first: Monotonic | null = null;
  let since: Monotonic | null = null;
  let calm = false;
  return {
    began(at: Monotonic): void {
      first ??= at;
      since ??= at;
    },
    disturbed(at: Monotonic): void {
      since = at;
    },
    reached(at: Monotonic): boolean {
      calm ||= first !== null && since !== null && (at - since >= SETTLE_MS || at - first >= SETTLE_LIMIT_MS);
      return calm;
    },
  };
};
