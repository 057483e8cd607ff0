import type { WireFault } from '#lib/measure/instrument';
import type { MassReading, ProbeUse, Reading, TemperatureReading } from '#lib/measure/reading';
import type { Shape } from '#lib/measure/shape';
import { createWire } from '#lib/measure/wire/index';
import type { Wire } from '#lib/measure/wire/index';
import { as } from '#lib/units/id';
import type { InstrumentId } from '#lib/units/id';
import { monotonic } from '#lib/units/time';

export interface Heard {
  readonly wire: Wire;
  readonly readings: Reading[];
  readonly faults: { readonly fault: WireFault; readonly raw: Uint8Array }[];
  masses(): MassReading[];
  temperatures(): TemperatureReading[];
  /** Every reading's number in the order they came: milligrams or thousandths of a degree, `null` for none. */
  numbers(): (number | null)[];
  names(): WireFault[];
}

/** A new wire and everything it said. */
export const listen = (shape: Shape, use: ProbeUse | null = null): Heard => {
  const readings: Reading[] = [];
  const faults: { fault: WireFault; raw: Uint8Array }[] = [];
  const wire = createWire({
    shape,
    instrument: as<InstrumentId>('under-test'),
    use,
    sink: { reading: (reading) => readings.push(reading), fault: (fault, raw) => faults.push({ fault, raw }) },
  });
  return {
    wire,
    readings,
    faults,
    masses: () => readings.filter((reading) => reading.kind === 'mass'),
    temperatures: () => readings.filter((reading) => reading.kind === 'temperature'),
    numbers: () => readings.map((reading) => (reading.kind === 'mass' ? reading.mass : reading.value)),
    names: () => faults.map(({ fault }) => fault),
  };
};

/** All of `bytes` in one chunk at moment 0. */
export const hear = (shape: Shape, bytes: Uint8Array, use: ProbeUse | null = null): Heard => {
  const heard = listen(shape, use);
  heard.wire.push(bytes, monotonic(0));
  return heard;
};

/** A reading without what depends on how the stream was cut: arrival and array identity. */
export const told = (reading: Reading): unknown => ({ ...reading, at: 0, raw: String.fromCharCode(...reading.raw) });
