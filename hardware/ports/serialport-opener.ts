import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { fstatSync, readSync } from 'node:fs';
import { SerialPort } from 'serialport';
import { PortError, type OpenPort, type PortEvents, type PortOpener, type SerialSettings } from '#lib/measure/link/port';
import type { Monotonic } from '#lib/units/time';
import { refuseAmbiguous } from './bind';
import { portFailure } from './port-failure';

/** The slice of serialport's binding port we use; its own types do not resolve under this module resolution. */
interface Line {
  readonly fd: number;
  readonly poller: { once(event: 'readable', heard: (fault: Error | null) => void): unknown };
  write(bytes: Buffer): Promise<void>;
  close(): Promise<void>;
}

const FRAMES: Record<SerialSettings['frame'], { dataBits: 7 | 8; parity: 'none' | 'even' | 'odd'; stopBits: 1 }> = {
  '8N1': { dataBits: 8, parity: 'none', stopBits: 1 },
  '7E1': { dataBits: 7, parity: 'even', stopBits: 1 },
  '7O1': { dataBits: 7, parity: 'odd', stopBits: 1 },
  '8E1': { dataBits: 8, parity: 'even', stopBits: 1 },
};

/** Above what a tty gives in one read (4,095 bytes), so that one read empties the line. */
const READ_BYTES = 8192;

export interface SerialOpenerParts {
  /** This process's monotonic clock. */
  readonly now: () => Monotonic;
  /** Where `dev`, `sys` and `run` lie; only tests say other than `/`. */
  readonly root?: string;
}

/** Opens real serial ports and pseudo-terminals. The only importer of `serialport`. */
export function createSerialOpener({ now, root = '/' }: SerialOpenerParts): PortOpener {
  return {
    async open(path, settings, events) {
      await refuseAmbiguous(path, root);
      const line = await openLine(path, settings);
      await keepLinesUpOnClose(path);
      return attach(line, now, events);
    },
  };
}

async function openLine(path: string, settings: SerialSettings): Promise<Line> {
  // On Windows the binding has no poller, and none of this has been tried there.
  if (process.platform === 'win32') throw new PortError('failed', 'serial ports are read on Linux and macOS only');
  try {
    const asked = { path, baudRate: settings.baudRate, ...FRAMES[settings.frame], hupcl: false, lock: true };
    return (await SerialPort.binding.open(asked)) as object as Line;
  } catch (error) {
    throw portFailure(error);
  }
}

/**
 * Best effort: without this the kernel drops DTR when the port closes, and raising it again at the next open reboots
 * many boards. serialport only refrains from asking for it; the kernel's default asks. Not by handing stty our descriptor:
 * a child's standard streams are made blocking, and ours with them.
 */
async function keepLinesUpOnClose(path: string): Promise<void> {
  const stty = spawn('stty', ['-F', path, '-hupcl'], { stdio: 'ignore' });
  await once(stty, 'close').catch(() => {});
}

function attach(line: Line, now: () => Monotonic, events: PortEvents): OpenPort {
  const buffer = Buffer.allocUnsafe(READ_BYTES);
  const { fd } = line;
  let open = true;
  let ending: Promise<void> | null = null;
  let writes: Promise<void> = Promise.resolve();

  function end(why: 'asked' | 'lost'): Promise<void> {
    // First of all: closing calls the poller's listeners at once, and a second close in there crashes the process.
    open = false;
    ending ??= release(why);
    return ending;
  }

  async function release(why: 'asked' | 'lost'): Promise<void> {
    await line.close().catch(() => {});
    // The news comes when the port is free again, so that a listener may reopen at once.
    events.closed(why);
  }

  /**
   * serialport's own read takes the zero bytes of a hung-up tty for "try again" and then spins for ever without telling:
   * seen in 9 of 60 unplugs right after data. So we wait with its poller and read ourselves; the descriptor never blocks.
   */
  function listen(): void {
    line.poller.once('readable', (fault: Error | null) => {
      if (!open) return;
      if (fault === null && take()) listen();
      else void end('lost');
    });
  }

  /** Reads what is there. False when the line is gone. */
  function take(): boolean {
    const at = now();
    const count = readNow(fd, buffer);
    if (count === 'gone') return false;
    if (count > 0) events.data(Uint8Array.from(buffer.subarray(0, count)), at);
    return true;
  }

  listen();
  return {
    nature: isPseudoTerminal(fd) ? 'pty' : 'serial',
    write(bytes) {
      if (!open) return Promise.reject(new PortError('failed', 'the port is closed'));
      writes = writes.catch(() => {}).then(() => line.write(Buffer.from(bytes)));
      return writes;
    },
    close: () => end('asked'),
  };
}

/** A non-blocking read: how many bytes came, none if there were none after all, or that a hang-up ended the line. */
function readNow(fd: number, into: Buffer): number | 'gone' {
  try {
    return readSync(fd, into, 0, into.length, null) || 'gone';
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    return code === 'EAGAIN' || code === 'EINTR' ? 0 : 'gone';
  }
}

/** By device number, not by name, so that no link or bind mount dresses one up. Numbers: Linux admin-guide/devices.txt, character majors 136-143. */
function isPseudoTerminal(fd: number): boolean {
  const major = (fstatSync(fd).rdev >> 8) & 0xfff;
  return major >= 136 && major <= 143;
}
