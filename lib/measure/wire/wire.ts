import type { WireFault } from '#lib/measure/instrument';
import type { ProbeUse } from '#lib/measure/reading';
import type { ScaleShape, Shape } from '#lib/measure/shape';
import type { InstrumentId } from '#lib/units/id';
import { type MassUnit, type Milligrams, massOfDigits, mg } from '#lib/units/mass';
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
  let step: Milligrams = mg(1);

  const fault = (why: WireFault, raw: Uint8Array): void => sink.fault(named(why, raw), raw);

  const frame = (bytes: Uint8Array, from: number, to: number): void => {
    reset(found);
    const why = decode(bytes, from, to, found) ?? unlike(found, layout);
    if (why !== null) {
      fault(why, bytes.slice(from, to));
      return;
    }
    let mass: Milligrams | null = null;
    if (found.unit !== null) {
      if (found.range === 'in') {
        const weight = massOfDigits(found.mantissa, found.decimals, found.unit);
        if (weight === null) {
          fault('bad-number', bytes.slice(from, to));
          return;
        }
        mass = found.negative ? mg(0 - weight.mass) : weight.mass;
        step = found.countBy === 1 ? weight.step : stepOf(found);
      }
      unit = found.unit;
    }
    seq += 1;
    sink.reading({
      kind: 'mass',
      instrument,
      seq,
      at: arrival.at,
      raw: bytes.slice(from, to),
      text: mass === null ? '' : found.text,
      unit,
      mass,
      step,
      motion: found.motion,
      range: found.range,
      weighing: found.weighing,
    });
  };

  return shape === 'stx-status' ? createStxFramer(frame, fault) : createLineFramer(frame, fault);
};

/** A whole good frame laid out unlike the others has lost or gained bytes, or somebody pressed the unit key. */
const unlike = (found: Found, layout: Layout): WireFault | null => {
  if (found.range !== 'in' || found.unit === null) return null;
  const verdict = layout.check(found.place, found.unit);
  return verdict === 'yes' ? null : verdict === 'no' ? 'layout' : 'first-partial';
};

/** Step of a scale that counts by twos, fives or tens of its last digit. */
const stepOf = (found: Found): Milligrams => {
  const counted = found.unit === null ? null : massOfDigits(found.countBy, found.decimals, found.unit);
  return mg(Math.max(1, counted?.mass ?? 1));
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
