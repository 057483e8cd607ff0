import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { chmodSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { createInterface } from 'node:readline';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { createSerialOpener } from '#hardware/ports/serialport-opener';
import { PortError } from '#lib/measure/link/port';
import { monotonic } from '#lib/units/time';
import { weighed } from '#tests/support/frames';
import { WITHOUT_RIGHTS } from '#tests/support/nobody';
import { ptyPair, type Pty } from '#tests/support/pty';
import { realLink, scaleOn, talk } from './rig';

const HOLDER = join(import.meta.dirname, '../../support/open-port.ts');

/** Another process that opens the port, as somebody without rights if asked. Its first word, and the way to let go. */
async function elsewhere(path: string, rights: 'ours' | 'none' = 'ours') {
  // Permissions mean nothing to root.
  const env = { ...process.env, ...(rights === 'none' ? WITHOUT_RIGHTS : {}) };
  const child = spawn(process.execPath, ['--import', 'tsx', HOLDER, path], { env, stdio: ['pipe', 'pipe', 'inherit'] });
  const [said] = (await once(createInterface(child.stdout), 'line')) as [string];
  return {
    said,
    async release() {
      child.stdin.end();
      if (child.exitCode === null) await once(child, 'exit');
    },
  };
}

describe('B4: three refusals, three messages', () => {
  let pty: Pty;
  beforeEach(async () => {
    pty = await ptyPair();
  });
  afterEach(() => pty.close());

  it('B4: busy while another process holds the port, and live by itself once that lets go', async () => {
    const other = await elsewhere(pty.path);
    expect(other.said).toBe('open');
    const real = realLink(scaleOn(pty.path));
    const talker = talk(pty, () => weighed(100));
    const refused = await real.status(({ phase }) => phase === 'waiting');
    expect(refused).toMatchObject({ failure: 'busy', lossesLastHour: 0 });
    await other.release();
    expect(await real.status(({ phase }) => phase === 'live')).toMatchObject({ failure: null });
    talker.stop();
    await real.link.stop();
  });

  it('B4: denied to somebody without rights to the device, who may open it once he has them', async () => {
    chmodSync(dirname(pty.path), 0o755);
    chmodSync(pty.path, 0o000);
    const without = await elsewhere(pty.path, 'none');
    chmodSync(pty.path, 0o666);
    const having = await elsewhere(pty.path, 'none');
    await Promise.all([without.release(), having.release()]);
    expect([without.said, having.said]).toEqual(['denied', 'open']);
  });

  it('B4: a missing port is refused, and no error of it ends the process', async () => {
    const real = realLink(scaleOn(`${pty.path}-absent`));
    expect(await real.status(({ phase }) => phase === 'waiting')).toMatchObject({ failure: 'missing' });
    await real.link.stop();
  });

  it('refuses what is no serial port in the system’s own words', async () => {
    const file = join(dirname(pty.path), 'a-file');
    writeFileSync(file, '');
    const opener = createSerialOpener({ now: () => monotonic(performance.now()) });
    const refusal = await opener.open(file, { baudRate: 9600, frame: '8N1' }, { data() {}, closed() {} }).catch((error: unknown) => error);
    expect(refusal).toBeInstanceOf(PortError);
    expect(refusal).toMatchObject({ code: 'failed', message: expect.stringContaining('Inappropriate ioctl') });
  });
});
