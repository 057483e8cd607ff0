import { spawnSync } from 'node:child_process';
import { EventEmitter, once } from 'node:events';
import { existsSync, readlinkSync } from 'node:fs';
import { mkdtemp, readFile, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { TestContext } from 'vitest';
import { createSerialOpener } from '#hardware/ports/serialport-opener';
import { inTheWay } from '#hardware/practice/device/free-name';
import type { OpenPort } from '#lib/measure/link/port';
import type { MassReading, Reading } from '#lib/measure/reading';
import { SCALE_SHAPES } from '#lib/measure/shape';
import type { Shape } from '#lib/measure/shape';
import { createIdentifier, createWire } from '#lib/measure/wire/index';
import { as } from '#lib/units/id';
import { monotonic } from '#lib/units/time';
import { startDevice } from '#tests/support/device';
import type { DeviceProcess } from '#tests/support/device';

const opener = createSerialOpener({ now: () => monotonic(performance.now()) });
const SERIAL = { baudRate: 9_600, frame: '8N1' } as const;

/** What a test started ends with it: the tests run beside one another. */
type Test = Pick<TestContext, 'onTestFinished'>;
const device = async (test: Test, ...flags: readonly string[]): Promise<DeviceProcess> => {
  const started = await startDevice(...flags);
  test.onTestFinished(async () => void (await started.end()));
  return started;
};

/** The device's tty, opened and read as the server does it. */
interface Heard {
  readonly port: OpenPort;
  readonly readings: readonly Reading[];
  readonly faults: readonly string[];
  readonly identified: () => Shape | null;
  next(fits: (reading: Reading) => boolean): Promise<Reading>;
  ended: Promise<'asked' | 'lost'>;
}
const hear = async (test: Test, path: string, shape: Shape): Promise<Heard> => {
  const readings: Reading[] = [];
  const faults: string[] = [];
  const waiting = new Set<(reading: Reading) => void>();
  const identifier = createIdentifier();
  let identified: Shape | null = null;
  const sink = {
    reading(reading: Reading) {
      readings.push(reading);
      for (const take of waiting) take(reading);
    },
    fault: (fault: string) => void faults.push(fault),
  };
  const wire = createWire({ shape, instrument: as('scale'), use: null, sink });
  const end = new EventEmitter<{ closed: ['asked' | 'lost'] }>();
  const ended = once(end, 'closed').then(([why]) => why as 'asked' | 'lost');
  const port = await opener.open(path, SERIAL, {
    data(chunk, at) {
      identified = identifier.push(chunk, at) ?? identified;
      wire.push(chunk, at);
    },
    closed: (why) => void end.emit('closed', why),
  });
  test.onTestFinished(() => port.close());
  const next = (fits: (reading: Reading) => boolean): Promise<Reading> =>
    new Promise((resolve) => {
      const take = (reading: Reading): void => {
        if (!fits(reading)) return;
        waiting.delete(take);
        resolve(reading);
      };
      waiting.add(take);
    });
  return { port, readings, faults, identified: () => identified, next, ended };
};
const isMass = (reading: Reading): reading is MassReading => reading.kind === 'mass';
/** A weight that stands still above this many mg. */
const still =
  (above: number) =>
  (reading: Reading): boolean =>
    isMass(reading) && reading.motion === 'stable' && (reading.mass ?? 0) > above;
const massOf = (reading: Reading): number => {
  if (!isMass(reading) || reading.mass === null) throw new Error('no weight');
  return reading.mass;
};

describe.concurrent('the simulated instrument on a real tty', () => {
  it.for(SCALE_SHAPES)('%s: the bytes name their shape and decode to what the scale truly carries', async (shape, test) => {
    const scale = await device(test, '--shape', shape, '--seed', '7');
    const line = await hear(test, scale.path, shape);
    const settled = line.next(still(400_000));
    await scale.tell({ act: 'set-down', grams: 350.4, name: 'pot' });
    const truth = await scale.tell({ act: 'pour', grams: 61.3, seconds: 1 });
    expect(truth).toMatchObject({ carried: 411_700, contents: 61_300, airborne: 0, open: true });
    expect(Math.abs(massOf(await settled) - 411_700)).toBeLessThanOrEqual(100);
    expect(line.identified()).toBe(shape);
    expect(new Set(line.faults)).toEqual(new Set(line.faults.length === 0 ? [] : ['first-partial']));
  });

  it('probe-line: a temperature within half a degree of the truth', async (test) => {
    const scale = await device(test, '--shape', 'probe-line', '--channel', 'oils', '--rate', '10');
    const line = await hear(test, scale.path, 'probe-line');
    const reading = await line.next((reading) => reading.kind === 'temperature');
    const truth = await scale.tell({ act: 'truth' });
    if (reading.kind !== 'temperature' || reading.value === null) throw new Error('no temperature');
    expect(reading.use).toBe('oils');
    expect(Math.abs(reading.value - Number(truth['celsius']))).toBeLessThan(500);
  });

  it('A2: unplugged in mid-pour it hangs up and its name is gone; plugged in again it says what was poured meanwhile, and nothing spliced', async (test) => {
    const scale = await device(test, '--shape', 'right-query');
    const line = await hear(test, scale.path, 'right-query');
    await scale.tell({ act: 'set-down', grams: 200, name: 'cup' });
    const midway = line.next((reading) => isMass(reading) && (reading.mass ?? 0) > 220_000);
    const poured = scale.tell({ act: 'pour', grams: 80, seconds: 3 });
    await midway;
    await scale.tell({ act: 'unplug' });
    expect(await line.ended).toBe('lost');
    expect(existsSync(scale.path)).toBe(false);
    await expect(hear(test, scale.path, 'right-query')).rejects.toMatchObject({ code: 'missing' });
    expect((await poured)['carried']).toBe(280_000);
    await scale.tell({ act: 'plug' });
    const again = await hear(test, scale.path, 'right-query');
    expect(Math.abs(massOf(await again.next(still(0))) - 280_000)).toBeLessThanOrEqual(100);
    const masses = [...line.readings, ...again.readings].map(massOf);
    expect(masses.every((mass) => mass > -1_000 && mass < 330_000)).toBe(true);
  });

  it('says nothing of the past to somebody who opens it later', async (test) => {
    const scale = await device(test, '--shape', 'header-comma');
    await scale.tell({ act: 'set-down', grams: 100, name: 'cup' });
    const first = await hear(test, scale.path, 'header-comma');
    await first.next(still(99_000));
    const closed = scale.next((line) => line.event === 'closed');
    await first.port.close();
    await closed;
    await scale.tell({ act: 'lift' });
    await scale.tell({ act: 'set-down', grams: 300, name: 'pot' });
    // Its display follows after the hand: only what it says from here on is all of the pot.
    await expect.poll(async () => Number((await scale.tell({ act: 'truth' }))['shown'])).toBeGreaterThan(290_000);
    const second = await hear(test, scale.path, 'header-comma');
    expect(massOf(await second.next(isMass))).toBeGreaterThan(150_000);
    expect(second.readings.map(massOf).every((mass) => mass > 150_000)).toBe(true);
  });

  it.for([
    ['letter-reply', 'SI\r\n'],
    ['echo-marker', 'SI\r\n'],
    ['right-query', 'IP\r\n'],
  ] as const)('%s answers a poll, and at rate 0 speaks only then', async ([shape, poll], test) => {
    const scale = await device(test, '--shape', shape, '--rate', '0');
    const line = await hear(test, scale.path, shape);
    await scale.tell({ act: 'set-down', grams: 150, name: 'cup' });
    expect(line.readings).toEqual([]);
    const heard = line.next(isMass);
    // The first frame only shows how the shape is laid out.
    for (let i = 0; i < 4; i += 1) await line.port.write(new TextEncoder().encode(poll));
    await heard;
  });

  it('changes its unit in mid-pour when its key is pressed', async (test) => {
    const scale = await device(test, '--shape', 'letter-reply');
    const line = await hear(test, scale.path, 'letter-reply');
    await scale.tell({ act: 'set-down', grams: 453.6, name: 'pot' });
    await line.next(still(450_000));
    const pounds = line.next((reading) => isMass(reading) && reading.unit === 'lb');
    await scale.tell({ act: 'unit', unit: 'lb' });
    expect(Math.abs(massOf(await pounds) - 453_600)).toBeLessThanOrEqual(230);
  });

  it('goes silent while staying plugged in, and comes back', async (test) => {
    const scale = await device(test, '--shape', 'header-comma');
    const line = await hear(test, scale.path, 'header-comma');
    await line.next(isMass);
    await scale.tell({ act: 'stop-frames' });
    await scale.tell({ act: 'truth' });
    const before = line.readings.length;
    await scale.tell({ act: 'set-down', grams: 100, name: 'cup' });
    expect(line.readings.length).toBeLessThanOrEqual(before + 1);
    const next = line.next(isMass);
    await scale.tell({ act: 'start-frames' });
    await next;
  });

  it('takes plain words from a person, and helps with misspelt ones', async (test) => {
    const scale = await device(test, '--shape', 'stx-status', '--unit', 'lb');
    const down = scale.next((line) => line.after === 'set-down');
    scale.type('set-down 350 lye jug');
    expect((await down).truth).toMatchObject({ carried: 350_000, vessel: 'lye jug', unit: 'lb' });
    const refused = scale.next((line) => line.refused !== undefined);
    scale.type('porr 20');
    expect((await refused).why).toBe('did you mean pour?');
  });

  it('says over when loaded beyond its capacity, and states no weight', async (test) => {
    const scale = await device(test, '--shape', 'echo-marker', '--capacity', '300', '--division', '0.01');
    const line = await hear(test, scale.path, 'echo-marker');
    const over = line.next((reading) => isMass(reading) && reading.range === 'over');
    await scale.tell({ act: 'set-down', grams: 420, name: 'pot' });
    expect(await over).toMatchObject({ mass: null, text: '' });
  });

  it.for(['SIGTERM', 'SIGINT'] as const)('leaves by %s with code 0, its link and its socat gone', async (signal, test) => {
    const scale = await startDevice('--shape', 'header-comma');
    const line = await hear(test, scale.path, 'header-comma');
    const tty = readlinkSync(scale.path);
    expect(await scale.end(signal)).toBe(0);
    expect(await line.ended).toBe('lost');
    expect(existsSync(scale.path)).toBe(false);
    expect(tty).toMatch(/^\/dev\/pts\//);
  });

  it('killed outright it leaves no socat behind, opened or waiting', async (test) => {
    const [opened, waiting] = await Promise.all([startDevice('--shape', 'header-comma'), startDevice('--shape', 'header-comma')]);
    const line = await hear(test, opened.path, 'header-comma');
    await Promise.all([opened.end('SIGKILL'), waiting.end('SIGKILL')]);
    expect(await line.ended).toBe('lost');
    await test.expect.poll(() => existsSync(waiting.path)).toBe(false);
  });
});

describe('the name its link is to have', () => {
  it('is refused where something stands that would be lost, where no link can go, and in a name that socat would read otherwise', async () => {
    const folder = await mkdtemp(join(tmpdir(), 'device-'));
    const [file, left] = [join(folder, 'recipes.txt'), join(folder, 'left-behind')];
    await writeFile(file, 'kept');
    await symlink('/dev/pts/999999', left);
    const run = spawnSync(process.execPath, ['--import', 'tsx', 'hardware/practice/device.ts', '--shape', 'letter-reply', '--pty', file]);
    expect(run.status).toBe(2);
    expect(String(run.stderr)).toContain('something stands there already');
    expect(await readFile(file, 'utf8')).toBe('kept');
    expect(inTheWay(folder)).toContain('something stands there');
    expect(inTheWay(join(folder, 'none', 'scale'))).toContain('there is no folder');
    expect(inTheWay(join(folder, 'a,b'))).toContain('a name without , is needed');
    expect(inTheWay(join(folder, 'scale'))).toBeNull();
    expect(inTheWay(left)).toBeNull();
    await rm(folder, { recursive: true });
  });
});
