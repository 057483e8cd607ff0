import { describe, expect, it } from 'vitest';
import { ascii } from '#hardware/practice/encode/index';
import { ACTS, actsHelp, readAct } from '#hardware/practice/device/acts';
import type { DeviceAct } from '#hardware/practice/device/acts';
import { BadFlag, readArgs } from '#hardware/practice/device/args';
import type { Device } from '#hardware/practice/device/instrument';
import { createProbeDevice } from '#hardware/practice/device/probe-device';
import { createScaleDevice } from '#hardware/practice/device/scale-device';

const complaint = (...argv: string[]): string => {
  try {
    readArgs(argv);
  } catch (error) {
    if (error instanceof BadFlag) return error.message;
    throw error;
  }
  return 'taken';
};

describe('flags of the simulated instrument', () => {
  it('have plain defaults', () => {
    expect(readArgs(['--shape', 'letter-reply', '--pty', '/tmp/s'])).toEqual({
      kind: 'scale',
      shape: 'letter-reply',
      pty: '/tmp/s',
      seed: 1,
      rate: 10,
      unit: 'g',
      capacity: 5_000_000,
      division: 100,
    });
    expect(readArgs(['--shape=stx-status', '--pty=/tmp/s', '--rate=0'])).toMatchObject({ unit: 'kg', rate: 0 });
    expect(readArgs(['--shape', 'probe-line', '--pty', '/tmp/s', '--channel', 'oils'])).toMatchObject({
      kind: 'probe',
      channel: 'oils',
      rate: 1,
    });
    expect(readArgs(['--help'])).toBe('help');
  });

  it.each([
    [['--shpe', 'x'], 'did you mean --shape?'],
    [['--shape', 'leter-reply', '--pty', '/tmp/s'], 'did you mean letter-reply?'],
    [['--shape', 'letter-reply', '--pty', '/tmp/s', '--unit', 'kgs'], 'did you mean kg?'],
    [['--shape', 'letter-reply'], '--pty PATH is missing'],
    [['--shape', 'letter-reply', '--pty'], '--pty needs a value'],
    [['--pty', '/tmp/s'], '--shape is missing; possible: header-comma'],
    [['--shape', 'letter-reply', '--shape', 'letter-reply', '--pty', '/tmp/s'], 'given twice'],
    [['--shape', 'letter-reply', '--pty', '/tmp/s', '--rate', 'fast'], 'no number from 0 to 100'],
    [['--shape', 'stx-status', '--pty', '/tmp/s', '--division', '0.001'], 'has no room'],
    [['--shape', 'stx-status', '--pty', '/tmp/s', '--unit', 'stone'], 'possible: kg, lb'],
    [['--shape', 'probe-line', '--pty', '/tmp/s', '--unit', 'g'], 'a probe has none'],
    [['--shape', 'letter-reply', '--pty', '/tmp/s', '--channel', 'lye'], 'a scale has none'],
    [['scale'], 'not known'],
  ])('%j is answered in plain words', (argv, words) => {
    expect(complaint(...argv)).toContain(words);
  });
});

describe('what it is told', () => {
  it.each<[string, DeviceAct]>([
    ['{"act":"set-down","grams":350,"name":"pot"}', { act: 'set-down', grams: 350, name: 'pot' }],
    ['set-down 350 lye jug', { act: 'set-down', grams: 350, name: 'lye jug' }],
    ['set-down lye jug', { act: 'set-down', name: 'lye jug' }],
    ['set-down 350', { act: 'set-down', grams: 350 }],
    ['pour 250', { act: 'pour', grams: 250 }],
    ['pour 250 4', { act: 'pour', grams: 250, seconds: 4 }],
    ['  lift  ', { act: 'lift' }],
    ['unit lb', { act: 'unit', unit: 'lb' }],
    ['read-as 85', { act: 'read-as', celsius: 85 }],
    ['help', { act: 'help' }],
  ])('%s', (line, act) => {
    expect(readAct(line)).toEqual(act);
  });

  it.each([
    ['lft', 'did you mean lift?'],
    ['{"act":"por","grams":1}', 'did you mean pour?'],
    ['pour', 'usage: pour GRAMS SECONDS'],
    ['pour -3', 'usage: pour GRAMS SECONDS'],
    ['{"act":"unit","unit":"stone"}', 'usage: unit UNIT'],
    ['{"act":', 'not understood; type help'],
    ['?', 'not understood; type help'],
    ['toString', 'not understood; type help'],
  ])('%s is answered', (line, why) => {
    expect(readAct(line)).toEqual({ act: null, why });
  });

  it('has a line of help for every act', () => {
    for (const act of ACTS) expect(actsHelp()).toContain(`  ${act}`);
  });
});

interface Trial {
  readonly device: Device;
  readonly log: string[];
  readonly sent: Uint8Array[];
  tell(...lines: string[]): void;
}
const told =
  (device: Device): Trial['tell'] =>
  (...lines) => {
    for (const line of lines) {
      const act = readAct(line);
      if (act.act === null) throw new Error(act.why);
      device.tell(act);
    }
  };
const trial = (kind: 'scale' | 'probe', ...argv: string[]): Trial => {
  const log: string[] = [];
  const sent: Uint8Array[] = [];
  const parts = {
    say: (bytes: Uint8Array) => void sent.push(bytes),
    done: (act: string) => void log.push(act),
    refused: (act: string, why: string) => void log.push(`${act}: ${why}`),
  };
  const options = readArgs([
    '--pty',
    '/tmp/s',
    ...(argv.includes('--shape') ? [] : ['--shape', kind === 'scale' ? 'letter-reply' : 'probe-line']),
    ...argv,
  ]);
  if (options === 'help') throw new Error('no help wanted');
  const device = options.kind === 'scale' ? createScaleDevice(options, parts) : createProbeDevice(options, parts);
  return { device, log, sent, tell: told(device) };
};
const words = ({ sent }: Trial): string => sent.map((bytes) => String.fromCharCode(...bytes)).join('');

describe('the simulated scale told by a program', () => {
  it('does the acts of the hands one after the other, and says when each has ended', () => {
    const at = trial('scale');
    at.tell('set-down 350 pot', 'pour 250 2', 'take-out 50 1', 'lift', 'set-down 100 cup', 'lift', 'set-down pot');
    expect(at.log).toEqual([]);
    at.device.pass(20_000);
    expect(at.log).toEqual(['set-down', 'pour', 'take-out', 'lift', 'set-down', 'lift', 'set-down']);
    expect(at.device.truth()).toMatchObject({ carried: 550_000, vessel: 'pot', contents: 200_000, airborne: 0 });
  });

  it('pours by eye near what was asked', () => {
    const at = trial('scale');
    at.tell('set-down 350 pot', 'pour-by-eye 100 1');
    at.device.pass(30_000);
    expect(Math.abs(Number(at.device.truth()['contents']) - 100_000)).toBeLessThan(2_000);
  });

  it('refuses in plain words what cannot be done', () => {
    const at = trial('scale');
    at.tell('pour 10', 'lift', 'set-down pot', 'set-down 20 pot', 'set-down 20 cup', 'unit lb', 'ail shorted', 'zero-key');
    at.device.pass(5_000);
    expect(at.log).toEqual([
      'unit',
      'ail: not-for-this-instrument',
      'zero-key: moving',
      'pour: pan-empty',
      'lift: pan-empty',
      'set-down: unknown-vessel: say how many grams',
      'set-down',
      'set-down: pan-occupied',
    ]);
  });

  it('splash, lean, noise, zero key and unit key act at once, in the middle of a pour too', () => {
    const at = trial('scale');
    at.tell('set-down 350 pot', 'pour 200 8');
    at.device.pass(4_000);
    at.tell('splash', 'lean 12', 'noise 5 1', 'unit lb', 'truth');
    expect(at.log).toEqual(['set-down', 'splash', 'lean', 'noise', 'unit', 'truth']);
    at.tell('stop');
    at.device.pass(3_000);
    const truth = at.device.truth();
    expect(truth['leaning']).toBe(12_000);
    expect(truth['wet']).toBeGreaterThan(0);
    expect(Number(truth['contents'])).toBeGreaterThan(10_000);
    expect(Number(truth['contents'])).toBeLessThan(150_000);
    expect(truth['carried']).toBe(350_000 + Number(truth['contents']) + Number(truth['wet']) + 12_000);
    expect(words(at)).toMatch(/ lb\r\n$/);
    at.tell('zero-key');
    at.device.pass(500);
    expect(Math.abs(Number(at.device.truth()['shown']))).toBeLessThanOrEqual(100);
    at.tell('unit kg');
    expect(at.log).toContain('unit');
  });

  it('speaks only when asked at rate 0: at once, when stable, or not at all', () => {
    const at = trial('scale', '--rate', '0');
    at.device.pass(3_000);
    expect(at.sent).toEqual([]);
    at.device.hear(ascii('SI\r\n'));
    expect(words(at)).toMatch(/^S S {8}0\.0 g\r\n$/);
    at.tell('set-down 500 pot');
    while (!at.log.includes('set-down')) at.device.pass(50);
    at.device.hear(ascii('S\r\n'));
    expect(at.sent.length).toBe(1);
    at.device.pass(2_500);
    expect(words(at)).toMatch(/S S {6}500\.0 g\r\n$/);
  });

  it('echo-marker acknowledges, waits for rest, and says when it gave up', () => {
    const at = trial('scale', '--rate', '0', '--shape', 'echo-marker');
    at.device.pass(2_000);
    at.device.hear(ascii('S\r\n'));
    at.device.pass(100);
    expect(words(at)).toMatch(/^S A\r\nS {5}.*0\.0 g {2}\r\n$/);
    at.tell('noise 50 20');
    at.device.pass(3_000);
    at.device.hear(ascii('S\r\n'));
    at.device.pass(6_000);
    expect(words(at)).toMatch(/S A\r\nS E\r\n$/);
  });

  it('falls silent and speaks again while staying plugged in', () => {
    const at = trial('scale');
    at.device.pass(1_000);
    at.tell('stop-frames');
    const before = at.sent.length;
    at.device.pass(2_000);
    expect(at.sent.length).toBe(before);
    at.tell('start-frames');
    at.device.pass(1_000);
    expect(at.sent.length).toBeGreaterThanOrEqual(before + 9);
  });
});

describe('the simulated probe told by a program', () => {
  it('makes lye, ails, lies and recovers', () => {
    const at = trial('probe');
    at.device.pass(2_000);
    expect(words(at)).toMatch(/^(P1 L 19\.\d{3} C ok\*[0-9A-F]{4}\r\n)+$/);
    at.tell('make-lye', 'make-lye');
    at.device.pass(100_000);
    expect(Number(at.device.truth()['celsius'])).toBeGreaterThan(70_000);
    at.tell('ail power-on-value');
    at.device.pass(1_100);
    expect(words(at)).toMatch(/P1 L - C power-on-value\*[0-9A-F]{4}\r\n$/);
    at.tell('read-as 85');
    at.device.pass(1_100);
    expect(words(at)).toMatch(/P1 L 85\.000 C ok\*[0-9A-F]{4}\r\n$/);
    at.tell('well', 'pour 10', 'hurry 20', 'cool');
    at.device.pass(3_000);
    expect(words(at)).not.toMatch(/85\.000 C ok\*[0-9A-F]{4}\r\n$/);
    expect(at.log).toEqual(['make-lye', 'make-lye: already', 'ail', 'read-as', 'well', 'pour: not-for-this-instrument', 'hurry', 'cool']);
  });
});
