import type { WireFault } from '#lib/measure/instrument';
import type { ProbeUse } from '#lib/measure/reading';
import type { ScaleShape, Shape } from '#lib/measure/shape';
import type { InstrumentId } from '#lib/units/id';
import { type MassUnit, type Milligrams, mg } from '#lib/units/mass';
import { massOfDigits, stepOfDecimals } from '#lib/units/mass-text';
import { type Monotonic, monotonic } from '#lib/units/time';
import { Block } from './block';
import { echoMarker } from './echo-marker';
import { headerComma } from './header-comma';
import { headerModeComma } from './header-mode-comma';
import { Layout } from './layout';
import { letterReply } from './letter-reply';
import { type Framer, type FramerSink, IDLE_CUT_MS, LineFramer } from './line-framer';
import { probeLine } from './probe-line';
import { rightQuery } from './right-query';
import { StxFramer } from './stx-framer';
import { stxStatus } from './stx-status';
import { nothingFound, reset } from './tokens';
import type { Decode, Wire, WireSink } from './types';

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
export const createWire = (options: WireOptions): Wire =>
  options.shape === 'probe-line' ? new ProbeWire(options) : new ScaleWire(options, options.shape);

/** What both kinds share: the time of the chunk being looked at, the bytes and their framing. */
abstract class AnyWire implements Wire, FramerSink {
  protected readonly block = new Block();
  protected readonly instrument: InstrumentId;
  protected readonly sink: WireSink;
  protected at: Monotonic = monotonic(0);
  protected seq = 0;
  private readonly framer: Framer;

  constructor({ shape, instrument, sink }: WireOptions) {
    this.instrument = instrument;
    this.sink = sink;
    this.framer = shape === 'stx-status' ? new StxFramer(this.block, this) : new LineFramer(this.block, this);
  }

  abstract frame(from: number, to: number): void;

  push(chunk: Uint8Array, at: Monotonic): void {
    this.at = at;
    this.framer.push(chunk);
  }

  idle(now: Monotonic): void {
    if (now - this.at >= IDLE_CUT_MS) this.framer.cut();
  }

  fault(why: WireFault, from: number, to: number): void {
    const raw = this.block.view(from, to);
    this.sink.fault(named(why, raw), raw);
  }
}

/** A frame with bytes outside ASCII is named so, whatever rule it broke: it points at speed or parity. */
const named = (why: WireFault, raw: Uint8Array): WireFault =>
  (why === 'grammar' || why === 'bad-number' || why === 'unknown-unit') && raw.some((byte) => byte > 0x7f) ? 'not-ascii' : why;

class ScaleWire extends AnyWire {
  private readonly decode: Decode;
  private readonly found = nothingFound();
  private readonly layout = new Layout();
  // An out-of-range frame may state neither unit nor step: it keeps the last stated ones.
  private unit: MassUnit = 'g';
  private step: Milligrams = mg(1);
  private mass: Milligrams = mg(0);

  constructor(options: WireOptions, shape: ScaleShape) {
    super(options);
    this.decode = DECODERS[shape];
  }

  frame(from: number, to: number): void {
    const { found } = this;
    reset(found);
    const why = this.decode(this.block.bytes, from, to, found) ?? this.weigh();
    if (why !== null) {
      this.fault(why, from, to);
      return;
    }
    const inRange = found.range === 'in';
    this.seq += 1;
    this.sink.reading({
      kind: 'mass',
      instrument: this.instrument,
      seq: this.seq,
      at: this.at,
      raw: this.block.view(from, to),
      text: inRange ? found.text : '',
      unit: this.unit,
      mass: inRange ? this.mass : null,
      step: this.step,
      motion: found.motion,
      range: found.range,
      weighing: found.weighing,
    });
  }

  /** From what the frame states to what it weighs. */
  private weigh(): WireFault | null {
    const { found } = this;
    if (found.range !== 'in') {
      this.unit = found.unit ?? this.unit;
      return null;
    }
    if (found.unit === null) return 'unknown-unit';
    const size = massOfDigits(found.mantissa, found.decimals, found.unit);
    if (size === null) return 'bad-number';
    const verdict = this.layout.check(found.place, found.unit);
    if (verdict === 'no') return 'layout';
    this.unit = found.unit;
    this.step = stepOfDecimals(found.decimals, found.unit, found.countBy);
    this.mass = found.negative ? mg(0 - size) : size;
    return verdict === 'first' ? 'first-partial' : null;
  }
}

class ProbeWire extends AnyWire {
  private readonly use: ProbeUse | null;

  constructor(options: WireOptions) {
    super(options);
    this.use = options.use;
  }

  frame(from: number, to: number): void {
    const found = probeLine(this.block.bytes, from, to);
    if (typeof found === 'string') {
      this.fault(found, from, to);
      return;
    }
    const use = found.use ?? this.use;
    if (use === null || (this.use !== null && use !== this.use)) {
      this.fault('other-channel', from, to);
      return;
    }
    this.seq += 1;
    this.sink.reading({
      kind: 'temperature',
      instrument: this.instrument,
      seq: this.seq,
      at: this.at,
      raw: this.block.view(from, to),
      use,
      value: found.value,
      text: found.text,
      fault: found.fault,
    });
  }
}
