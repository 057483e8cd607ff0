import { realpathSync, statSync } from 'node:fs';
import { normalize } from 'node:path';
import type { InstrumentConfig } from '#lib/measure/instrument';
import { PortError } from '#lib/measure/link/port';
import type { PortOpener } from '#lib/measure/link/port';
import type { Realm } from '#lib/work/batch/index';

/** Whether a path leads to a pseudo-terminal now; `null`: there is nothing. By device number (Linux admin-guide/devices.txt, majors 136-143). */
export const leadsToPty = (path: string): boolean | null => {
  try {
    const major = (statSync(realpathSync(path)).rdev >> 8) & 0xfff;
    return major >= 136 && major <= 143;
  } catch {
    return null;
  }
};

/** What a name of a port leads to now; a name that leads nowhere stands for itself. */
export const deviceOf = (path: string): string => {
  try {
    return realpathSync(path);
  } catch {
    return normalize(path);
  }
};

/** What the records of a bench with these instruments are worth. A port that is not there yet is given the benefit until it opens. */
export const realmOf = (configs: readonly InstrumentConfig[], ptyIsReal: boolean): Realm =>
  !ptyIsReal && configs.some((config) => leadsToPty(config.path) === true) ? 'test' : 'real';

/**
 * In the real realm a port that turns out to be a pseudo-terminal is closed before a byte of it counts: its readings are never real.
 * `found` hears of it.
 */
export const refusePty = (opener: PortOpener, found: (path: string) => void): PortOpener => ({
  async open(path, settings, events) {
    let shut = false;
    const port = await opener.open(path, settings, {
      data: (chunk, at) => void (shut || events.data(chunk, at)),
      closed: (why) => void (shut || events.closed(why)),
    });
    if (port.nature !== 'pty') return port;
    shut = true;
    await port.close();
    found(path);
    throw new PortError(
      'failed',
      `${path} is a pseudo-terminal: its weights are not real. Start with --pty-is-real if it stands for a real line`,
    );
  },
});
