import { expect, it } from 'vitest';
import { createWatch } from '#lib/bench/pipeline/watch';
import { liveProbe } from '#lib/bench/pipeline/views';
import type { InstrumentConfig } from '#lib/measure/instrument';
import type { TemperatureReading } from '#lib/measure/reading';
import { as } from '#lib/units/id';
import type { InstrumentId } from '#lib/units/id';
import { milliCelsius, milliKelvin } from '#lib/units/temperature';
import { monotonic } from '#lib/units/time';

const BOARD = as<InstrumentId>('board');
const CONFIG: InstrumentConfig = {
  kind: 'probe',
  id: BOARD,
  name: 'board',
  path: '/dev/none',
  use: null,
  shape: 'probe-line',
  serial: { baudRate: 9600, frame: '8N1' },
};

const reading = (seq: number, use: 'lye' | 'oils', value: number | null): TemperatureReading => ({
  kind: 'temperature',
  instrument: BOARD,
  seq,
  at: monotonic(seq * 1_000),
  raw: new Uint8Array(),
  use,
  value: value === null ? null : milliCelsius(value),
  text: '',
  fault: value === null ? 'disconnected' : null,
});

const status = () => ({ phase: 'live', nature: 'serial' }) as const;

it('a checked probe is corrected before anything goes by it, and says by how much; another channel of its board is not', () => {
  const watch = createWatch([CONFIG], (_instrument, use) => (use === 'lye' ? milliKelvin(-400) : null));
  const shown = (use: string, at: number) => {
    const probe = watch.probes().find((one) => one.use === use);
    if (probe === undefined) throw new Error(`no ${use}`);
    return liveProbe(probe, status, monotonic(at));
  };
  expect(watch.take(reading(1, 'lye', 43_400))).toMatchObject({ value: 43_000 });
  expect(watch.take(reading(2, 'oils', 41_000))).toMatchObject({ value: 41_000 });
  expect(shown('lye', 1_100)).toMatchObject({ value: 43_000, correction: -400, last: { value: 43_000 } });
  expect(shown('oils', 2_100)).toMatchObject({ value: 41_000, correction: null });
  // A word stays a word.
  expect(watch.take(reading(3, 'lye', null))).toMatchObject({ value: null, fault: 'disconnected' });
  expect(shown('lye', 3_100)).toMatchObject({ value: null, correction: -400 });
});

it('what a sensor says when it has failed is known by what it said, not by what it was corrected to', () => {
  const watch = createWatch([CONFIG], () => milliKelvin(700));
  watch.take(reading(1, 'lye', 20_000));
  expect(watch.take(reading(2, 'lye', 85_000))).toMatchObject({ value: null });
});
