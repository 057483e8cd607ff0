import { performance } from 'node:perf_hooks';
import { createSerialOpener } from '#hardware/ports/serialport-opener';
import { monotonic } from '#lib/units/time';
import { portContract } from '#tests/support/port-contract';
import { ptyPair } from '#tests/support/pty';

portContract('serialport on a real tty', async () => {
  const pty = await ptyPair();
  return {
    opener: createSerialOpener({ now: () => monotonic(performance.now()) }),
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
