import { describe, expect, it } from 'vitest';
import { createPracticeBench } from '#hardware/practice/opener';
import type { PracticeBench } from '#hardware/practice/opener';
import type { OpenPort, PortEvents } from '#lib/measure/link/port';
import { createWire } from '#lib/measure/wire/index';
import type { Reading } from '#lib/measure/reading';
import { portContract } from '#tests/support/port-contract';
import { fakeTime } from './fake-time';
import type { FakeTime } from './fake-time';

const laid = (seed = 41): { time: FakeTime; bench: PracticeBench } => {
  const time = fakeTime();
  return { time, bench: createPracticeBench({ seed, clock: time.clock, timers: time.timers }) };
};

portContract('the practice bench', () => {
  const { time, bench } = laid();
  return {
    opener: bench.opener,
    path: 'practice:main',
    missingPath: 'practice:nowhere',
    settings: { baudRate: 9_600, frame: '8N1' },
    nature: 'simulated',
    provoke: () => time.pass(150),
    unplug: () => void bench.scene.act({ act: 'unplug', what: 'main' }, null),
    replug: () => void bench.scene.act({ act: 'plug', what: 'main' }, null),
    close: () => {},
  };
});

interface Listening {
  readonly port: OpenPort;
  readonly readings: Reading[];
  readonly faults: string[];
  readonly stamps: number[];
}

/** Opens one of the bench's instruments and reads it through the same wire as a real one. */
const listen = async (bench: PracticeBench, id: string): Promise<Listening> => {
  const config = bench.configs.find((config) => config.id === id);
  if (config?.shape == null) throw new Error(`no ${id}`);
  const readings: Reading[] = [];
  const faults: string[] = [];
  const stamps: number[] = [];
  const use = config.kind === 'probe' ? config.use : null;
  const sink = { reading: (reading: Reading) => void readings.push(reading), fault: (fault: string) => void faults.push(fault) };
  const wire = createWire({ shape: config.shape, instrument: config.id, use, sink });
  const events: PortEvents = {
    data(chunk, at) {
      stamps.push(at);
      wire.push(chunk, at);
    },
    closed: () => {},
  };
  return { port: await bench.opener.open(config.path, config.serial, events), readings, faults, stamps };
};

/** What the small scale says of a cup set down, its bench getting a turn every `cut` ms. */
const bytes = async (seed: number, cut: number): Promise<string> => {
  const { time, bench } = laid(seed);
  const scale = await listen(bench, 'practice-fine');
  bench.scene.act({ act: 'set-down', vessel: 'cup', scale: 'fine' }, null);
  for (let t = 0; t < 4_200; t += cut) time.stall(cut);
  return scale.readings.map((reading) => reading.text).join();
};

describe('the practice bench', () => {
  it('names two scales and three probes, the scales speaking different shapes', () => {
    const { configs } = laid().bench;
    expect(configs.map(({ id }) => id)).toEqual(['practice-main', 'practice-fine', 'practice-lye', 'practice-oils', 'practice-room']);
    expect(new Set(configs.flatMap((config) => (config.kind === 'scale' ? [config.shape] : []))).size).toBe(2);
    expect(configs.every(({ path }) => path.startsWith('practice:'))).toBe(true);
  });

  it('sends ten readings a second from a scale and one from a probe, all decoded but the cut first', async () => {
    const { time, bench } = laid();
    const scale = await listen(bench, 'practice-main');
    const probe = await listen(bench, 'practice-oils');
    time.pass(10_000);
    expect(scale.readings.length).toBeGreaterThanOrEqual(97);
    expect(scale.readings.length).toBeLessThanOrEqual(100);
    expect(probe.readings.length).toBeGreaterThanOrEqual(8);
    expect(new Set([...scale.faults, ...probe.faults])).toEqual(new Set(['first-partial']));
    expect(scale.readings.at(-1)).toMatchObject({ kind: 'mass', unit: 'g', step: 100, motion: 'stable', range: 'in' });
    expect(probe.readings.at(-1)).toMatchObject({ kind: 'temperature', use: 'oils', fault: null });
  });

  it('begins in the middle of a frame, as a wire does that was live before the port opened', async () => {
    const firsts: string[] = [];
    for (const seed of [1, 2, 3, 4, 5, 6]) {
      const { time, bench } = laid(seed);
      await bench.opener.open(
        'practice:main',
        { baudRate: 9_600, frame: '8N1' },
        { data: (chunk) => firsts.push(String(chunk.length)), closed: () => {} },
      );
      time.pass(110);
    }
    expect(firsts.some((length) => length !== '17')).toBe(true);
  });

  it('reads within a division and noise of what the scale truly carries, through the wire', async () => {
    const { time, bench } = laid();
    const scale = await listen(bench, 'practice-main');
    bench.scene.act({ act: 'set-down', vessel: 'pot' }, null);
    time.pass(4_000);
    const reading = scale.readings.at(-1);
    if (reading?.kind !== 'mass' || reading.mass === null) throw new Error('no weight');
    expect(Math.abs(reading.mass - bench.world().carried('main'))).toBeLessThanOrEqual(200);
  });

  it('sends the same bytes for the same seed, whenever it gets its turns', async () => {
    expect(await bytes(9, 20)).toBe(await bytes(9, 700));
    expect(await bytes(9, 20)).not.toBe(await bytes(10, 20));
  });

  it('A3: sends what piled up while the machine stood still as one late burst, stamped when it came', async () => {
    const { time, bench } = laid();
    const scale = await listen(bench, 'practice-main');
    time.pass(1_000);
    const before = scale.stamps.length;
    time.stall(5_000);
    expect(scale.stamps.length - before).toBeGreaterThanOrEqual(49);
    expect(new Set(scale.stamps.slice(before))).toEqual(new Set([6_000]));
  });

  it('is lost when unplugged and missing until plugged in, while the others talk on', async () => {
    const { time, bench } = laid();
    const main = await listen(bench, 'practice-main');
    const fine = await listen(bench, 'practice-fine');
    time.pass(1_000);
    expect(bench.scene.act({ act: 'unplug', what: 'main' }, null)).toEqual({ ok: true, why: null });
    expect(bench.scene.act({ act: 'unplug', what: 'main' }, null)).toEqual({ ok: false, why: 'already' });
    const [silent, talking] = [main.readings.length, fine.readings.length];
    time.pass(2_000);
    expect(main.readings.length).toBe(silent);
    expect(fine.readings.length).toBeGreaterThan(talking + 15);
    await expect(listen(bench, 'practice-main')).rejects.toMatchObject({ code: 'missing' });
    bench.scene.act({ act: 'plug', what: 'main' }, null);
    const again = await listen(bench, 'practice-main');
    time.pass(1_000);
    expect(again.readings.length).toBeGreaterThan(5);
  });

  it('keeps no timer while no port is open', async () => {
    const { time, bench } = laid();
    expect(time.waiting).toBe(0);
    const scale = await listen(bench, 'practice-main');
    const probe = await listen(bench, 'practice-lye');
    expect(time.waiting).toBe(1);
    await scale.port.close();
    expect(time.waiting).toBe(1);
    await probe.port.close();
    expect(time.waiting).toBe(0);
  });

  it('lets kettles cool through hours that nobody listened to', () => {
    const { time, bench } = laid();
    const before = bench.world().warmth.oils.celsius;
    time.pass(3 * 3_600_000);
    expect(bench.world().warmth.oils.celsius).toBeLessThan(before - 10);
  });
});
