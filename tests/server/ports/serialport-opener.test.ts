import { execFileSync } from 'node:child_process';
import { performance } from 'node:perf_hooks';
import { expect, it } from 'vitest';
import { portFailure } from '#hardware/ports/port-failure';
import { createSerialOpener } from '#hardware/ports/serialport-opener';
import { monotonic } from '#lib/units/time';
import { deferred } from '#tests/support/deferred';
import { portContract } from '#tests/support/port-contract';
import { ptyPair } from '#tests/support/pty';

const opener = createSerialOpener({ now: () => monotonic(performance.now()) });

portContract('serialport on a real tty', async () => {
  const pty = await ptyPair();
  return {
    opener,
    path: pty.path,
    missingPath: `${pty.path}-absent`,
    settings: { baudRate: 9600, frame: '8N1' },
    nature: 'pty',
    provoke: () => pty.write('QT,+00001.85  g\r\n'),
    unplug: () => pty.kill(),
    replug: () => pty.replug(),
    close: () => pty.close(),
  };
});

it('asks the kernel to leave the modem lines up when it closes, so that the next opening reboots nothing', async () => {
  const pty = await ptyPair();
  execFileSync('stty', ['-F', pty.path, 'hupcl']);
  const port = await opener.open(pty.path, { baudRate: 1200, frame: '7E1' }, { data() {}, closed() {} });
  const settings = execFileSync('stty', ['-F', pty.path, '-a'], { encoding: 'utf8' });
  await port.close();
  await pty.close();
  expect(settings).toContain(' -hupcl');
  expect(settings).toContain('speed 1200 baud');
});

it('B1: tells a hang-up that falls between two reads', async () => {
  const pty = await ptyPair();
  for (let n = 0; n < 5; n += 1) {
    const ended = deferred<'asked' | 'lost'>();
    const kills: Promise<void>[] = [];
    const data = (): void => {
      if (kills.length === 0) kills.push(pty.kill());
      // Stand still in the middle of a read until the kernel has hung the line up.
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 10);
    };
    await opener.open(pty.path, { baudRate: 9600, frame: '8N1' }, { data, closed: ended.resolve });
    await pty.write('ST,+00001.85  g\r\n');
    expect(await ended.promise).toBe('lost');
    await Promise.all(kills);
    await pty.replug();
  }
  await pty.close();
});

it.each([
  ['Error: No such file or directory, cannot open /dev/x', 'missing'],
  ['Error: No such device or address, cannot open /dev/x', 'missing'],
  ['Error: Permission denied, cannot open /dev/x', 'denied'],
  ['Error: Operation not permitted, cannot open /dev/x', 'denied'],
  ['Error: Device or resource busy, cannot open /dev/x', 'busy'],
  ['Error Resource temporarily unavailable Cannot lock port', 'busy'],
  ['Error: Input/output error setting custom baud rate of 9600', 'failed'],
])('B4: %s is %s', (said, code) => {
  expect(portFailure(new Error(said))).toMatchObject({ code, message: said.replace(/^Error:? /, '') });
});

it.each([import.meta.filename, import.meta.dirname])('B4: says of a file or a folder that it is no serial port: %s', async (path) => {
  const opened = opener.open(path, { baudRate: 9600, frame: '8N1' }, { data() {}, closed() {} });
  await expect(opened).rejects.toMatchObject({ code: 'failed', message: expect.stringContaining('no serial port stands there') as string });
});
