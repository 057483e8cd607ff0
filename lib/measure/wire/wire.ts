import type { WireFault } from '#lib/measure/instrument';
import type { ProbeUse } from '#lib/measure/reading';
import type { ScaleShape, Shape } from '#lib/measure/shape';
import type { InstrumentId } from '#lib/units/id';
import { type MassUnit, type Milligrams, massOfDigits, mg, stepOfDecimals } from '#lib/units/mass';
import { type Monotonic, monotonic } from '#lib/units/time';
import { echoMarker } from './echo-marker';
import { headerComma } from './header-comma';
import { headerModeComma } from './header-mode-comma';
import { Layout } from './layout';
import { letterReply } from './letter-reply';
import { type Framer, IDLE_CUT_MS, createLineFramer } from './line-framer';
import { probeLine } from './probe-line';
import { rightQuery } from './right-query';
import { createStxFramer } from './stx-framer';
import { stxStatus } from './stx-status';
import { reset } from './tokens';
import type { Decode, Found, Wire, WireSink } from './types';

const DECODERS: Readonly<Record<ScaleShape, Decode>> = {
  'header-comma': headerComma,
  'header-mode-comma': headerModeComma,
  'echo-marker': echoMarker,
  'letter-reply': letterReply,
  'stx-status': stxStatus,
  'right-query': rightQuery,
};

export interface WireOptions {
  readonly shape: Shape;
  readonly instrument: InstrumentId;
  /** Vessel a person gave the probe; `null`: the frame's own channel letter says. A letter that says another is a fault. Scales: `null`. */
  readonly use: ProbeUse | null;
  readonly sink: WireSink;
}

/** A new wire for one opening of one port. */
export const createWire = (options: WireOptions): Wire => {
  const arrival = { at: monotonic(0) };
  const { shape } = options;
  const framer = shape === 'probe-line' ? probeWire(options, arrival) : scaleWire(options, shape, arrival);
  return {
    push(chunk, at) {
      arrival.at = at;
      framer.push(chunk);
    },
    idle(now) {
      if (now - arrival.at >= IDLE_CUT_MS) framer.cut();
    },
  };
};

/** Arrival of the chunk being looked at. */
interface Arrival {
  at: Monotonic;
}

const scaleWire = ({ instrument, sink }: WireOptions, shape: ScaleShape, arrival: Arrival): Framer => {
  const decode = DECODERS[shape];
  const found = {} as Found;
  const layout = new Layout();
  let seq = 0;
  // An out-of-range frame may state neither: it keeps the last stated ones.
  let unit: MassUnit = 'g';
  let mass = mg(0);
  let step: Milligrams = mg(1);

  const fault = (why: WireFault, raw: Uint8Array): void => sink.fault(named(why, raw), raw);

  const frame = (bytes: Uint8Array, from: number, to: number): void => {
    reset(found);
    const why = decode(bytes, from, to, found) ?? weigh();
    if (why !== null) {
      fault(why, bytes.slice(from, to));
      return;
    }
    const inRange = found.range === 'in';
    seq += 1;
    sink.reading({
      kind: 'mass',
      instrument,
      seq,
      at: arrival.at,
      raw: bytes.slice(from, to),
      text: inRange ? found.text : '',
      unit,
      mass: inRange ? mass : null,
      step,
      motion: found.motion,
      range: found.range,
      weighing: found.weighing,
    });
  };

  /** From what the frame states to what it weighs. */
  const weigh = (): WireFault | null => {
    if (found.range !== 'in') {
      unit = found.unit ?? unit;
      return null;
    }
    if (found.unit === null) return 'unknown-unit';
    const size = massOfDigits(found.mantissa, found.decimals, found.unit);
    if (size === null) return 'bad-number';
    const verdict = layout.check(found.place, found.unit);
    if (verdict === 'no') return 'layout';
    unit = found.unit;
    step = stepOfDecimals(found.decimals, unit, found.countBy);
    mass = found.negative ? mg(0 - size) : size;
    return verdict === 'first' ? 'first-partial' : null;
  };

  return shape === 'stx-status' ? createStxFramer(frame, fault) : createLineFramer(frame, fault);
};

/** A frame with bytes outside ASCII is named so, whatever rule it broke: it points at speed or parity. */
const named = (why: WireFault, raw: Uint8Array): WireFault =>
  why === 'grammar' || why === 'bad-number' || why === 'unknown-unit' ? (raw.some((byte) => byte > 0x7f) ? 'not-ascii' : why) : why;

const probeWire = ({ instrument, use, sink }: WireOptions, arrival: Arrival): Framer => {
  let seq = 0;
  const fault = (why: WireFault, raw: Uint8Array): void => sink.fault(named(why, raw), raw);
  return createLineFramer((bytes, from, to) => {
    const found = probeLine(bytes, from, to);
    const raw = bytes.slice(from, to);
    if (typeof found === 'string') {
      fault(found, raw);
      return;
    }
    const stated = found.use ?? use;
    if (stated === null || (use !== null && stated !== use)) {
      fault('other-channel', raw);
      return;
    }
    seq += 1;
    sink.reading({
      kind: 'temperature',
      instrument,
      seq,
      at: arrival.at,
      raw,
      use: stated,
      value: found.value,
      text: found.text,
      fault: found.fault,
    });
  }, fault);
};
