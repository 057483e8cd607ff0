import type { ChildProcess } from 'node:child_process';
import { existsSync, readFileSync, symlinkSync, watch, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { createSerialOpener } from '#hardware/ports/serialport-opener';
import { monotonic } from '#lib/units/time';
import { readHeads } from '#server/store/heads';
import { encode, leadIn, still } from '#tests/support/encode-frames';
import { ptyPair } from '#tests/support/pty';
import type { Pty } from '#tests/support/pty';
import { recordIn, stateHash } from '#tests/support/record-rig';
import { screenAt, serverProcess, tempFolder } from '#tests/support/server-rig';
import type { ServerProcess } from '#tests/support/server-rig';

const stillThere = (ms: number): Promise<string> => new Promise((resolve) => setTimeout(() => resolve(`runs on after ${ms} ms`), ms));

describe('C2: a server that is asked to end in the middle of a step', () => {
  let folder: ReturnType<typeof tempFolder>;
  let pty: Pty;
  let server: ServerProcess;
  let sending: NodeJS.Timeout;
  const start = () => serverProcess(['--port', '0', '--data', folder.path, '--scale', `${pty.path},header-comma`]);
  beforeEach(async () => {
    folder = tempFolder();
    pty = await ptyPair();
    await pty.write(leadIn('header-comma', still(0, 1)));
    sending = setInterval(() => void pty.write(encode('header-comma', still(6_425, 1))), 50);
    server = await start();
  });
  afterEach(async () => {
    clearInterval(sending);
    await server.end('SIGKILL');
    await pty.close();
    folder.remove();
  });

  it.each(['SIGTERM', 'SIGINT'] as const)('%s: ends within 3 s, the port is free at once, the record is whole', async (signal) => {
    const screen = screenAt(server.port);
    await screen.greeted();
    await screen.lease('take');
    await screen.intent({ kind: 'start', plan: 'alder-and-oat', lots: { coconut: { id: 'lot-coconut-07', mark: 'x' } } });
    await screen.frame((frame) => frame.cue.phase !== 'idle' && frame.scales[0]?.gross !== null);
    const asked = screen.intent({ kind: 'note', text: 'in the very moment' });
    const at = performance.now();
    const ended = server.end(signal);
    await Promise.race([asked, ended]);
    expect(await Promise.race([ended, stillThere(3_000)])).toBe(0);
    expect(performance.now() - at).toBeLessThan(3_000);

    const opener = createSerialOpener({ now: () => monotonic(performance.now()) });
    const port = await opener.open(pty.path, { baudRate: 9600, frame: '8N1' }, { data: () => {}, closed: () => {} });
    await port.close();

    const seen = screen.batch();
    screen.close();
    const mark = JSON.parse(readFileSync(join(folder.path, 'last-run.json'), 'utf8')) as { stopped: number | null };
    expect(mark.stopped).toBeTypeOf('number');
    const record = await recordIn(folder.path, 'test');
    expect(record.sound).toBe(true);
    // Every entry a screen was told of is in the record; the last ones may have been kept without the screen hearing of them.
    expect(seen).not.toBeNull();
    expect(stateHash(record.at(seen))).toBe(stateHash(seen));
  });

  it('says so when the last run ended without being stopped', async () => {
    await server.end('SIGKILL');
    server = await start();
    expect(server.said()).toContain('the last run ended without being stopped');
    await server.end('SIGTERM');
    server = await start();
    expect(server.said()).not.toContain('without being stopped');
  });

  it('runs and ends as well where no mark of the run can be kept', async () => {
    await server.end('SIGTERM');
    symlinkSync('/dev/full', join(folder.path, 'last-run.json.new'));
    server = await start();
    expect(await server.end('SIGTERM')).toBe(0);
  });
});

/** Resolves once something holds that changes in a folder bring about. */
const when = (folder: string, holds: () => boolean): Promise<void> =>
  new Promise((resolve) => {
    const look = (): void => {
      if (!holds()) return;
      watcher.close();
      resolve();
    };
    const watcher = watch(folder, look);
    look();
  });

describe('C2: a first start that is asked to end while it lays out its half-year', () => {
  it('ends within 3 s and leaves no part of it for the record', async () => {
    // On a busy machine it may be whole before the signal comes: then once more.
    for (let tries = 0; ; tries += 1) {
      const folder = tempFolder();
      const apart = join(folder.path, 'practice.unfinished');
      let child: ChildProcess | undefined;
      const start = serverProcess(['--port', '0', '--data', folder.path], {}, { past: true, began: (begun) => (child = begun) });
      const ended = start.then(
        async (server) => `${await server.end('SIGKILL')}: it was there before the signal`,
        (error: unknown) => (error as Error).message,
      );
      const begun = async (): Promise<void> => {
        await when(folder.path, () => existsSync(apart));
        await when(apart, () => {
          const heads = readHeads(join(apart, 'practice.heads'));
          return typeof heads !== 'string' && heads.bench.seq > 0;
        });
      };
      await Promise.race([begun().catch(() => undefined), ended]);
      child?.kill('SIGTERM');
      const said = await Promise.race([ended, stillThere(3_000)]);
      const whole = existsSync(join(folder.path, 'practice.sqlite'));
      folder.remove();
      if (whole && tries < 5) continue;
      expect(said).toBe('the server ended with 0: ');
      expect(whole).toBe(false);
      return;
    }
  });
});

/** Loaded before the server: fails in the middle of its work when asked to by a signal. */
const flaw = (fail: string): string => `--import data:text/javascript,process.on('SIGUSR2',()=>{${encodeURIComponent(fail)}})`;

describe('C2: a server in which something went wrong that nobody foresaw', () => {
  it.each([
    ['an exception', "throw new Error('unforeseen')"],
    ['a rejection', "void Promise.reject(new Error('unforeseen'))"],
  ])('%s: says so, blanks the screens, keeps the record and ends with a failure', async (_what, fail) => {
    const folder = tempFolder();
    const server = await serverProcess(['--port', '0', '--data', folder.path, '--scale', 'practice'], {
      NODE_OPTIONS: flaw(fail),
    });
    const screen = screenAt(server.port);
    await screen.greeted();
    await screen.lease('take');
    await screen.intent({ kind: 'start', plan: 'alder-and-oat', lots: {} });
    const gone = new Promise((resolve) => screen.socket.once('disconnect', resolve));
    expect(await server.end('SIGUSR2')).toBe(1);
    await gone;
    expect(server.said()).toContain('unforeseen');
    const record = await recordIn(folder.path, 'practice');
    expect(record.sound).toBe(true);
    expect(screen.batch()).not.toBeNull();
    expect(stateHash(record.at(screen.batch()))).toBe(stateHash(screen.batch()));
    screen.close();
    folder.remove();
  });
});

describe('a server that must not start', () => {
  let folder: ReturnType<typeof tempFolder>;
  beforeEach(() => (folder = tempFolder()));
  afterEach(() => folder.remove());

  it('says who uses the folder, or the port, and ends', async () => {
    const args = ['--data', folder.path, '--scale', 'practice'];
    const first = await serverProcess(['--port', '0', ...args]);
    await expect(serverProcess(['--port', '0', ...args])).rejects.toThrow(/ended with 1: [^]*is using the data folder/);
    const other = tempFolder();
    await expect(serverProcess(['--port', String(first.port), '--data', other.path, '--scale', 'practice'])).rejects.toThrow(/--port N/);
    // What never began has not broken off.
    expect(JSON.parse(readFileSync(join(other.path, 'last-run.json'), 'utf8'))).toMatchObject({ stopped: expect.any(Number) as number });
    other.remove();
    await first.end('SIGTERM');
  });

  it('says that it is the folder, not the port, where nothing can be kept', async () => {
    const taken = join(folder.path, 'a file');
    writeFileSync(taken, '');
    await expect(serverProcess(['--port', '0', '--data', taken, '--scale', 'practice'])).rejects.toThrow(
      /ended with 1: [^]*data folder .*a file cannot be made or written to[^]*--data DIR/,
    );
    await expect(serverProcess(['--port', '0', '--data', join(taken, 'below'), '--scale', 'practice'])).rejects.toThrow(
      /data folder .*below cannot be made/,
    );
  });

  it('says that the disk is full, where it is, and asks nobody for rights', async () => {
    // What is written to /dev/full meets a full disk.
    symlinkSync('/dev/full', join(folder.path, 'screens.key.new'));
    const args = ['--port', '0', '--data', folder.path, '--scale', 'practice'];
    await expect(serverProcess(args)).rejects.toThrow(/ended with 1: [^]*is full\. Make room on it/);
    symlinkSync('/dev/full', join(folder.path, 'in-use.txt'));
    await expect(serverProcess(args)).rejects.toThrow(/^(?![^]*the right to write)[^]*data folder [^]*full: make room on it/);
  });

  it('says what a misspelt flag was meant to be, and nothing that would push it off the screen', async () => {
    await expect(serverProcess(['--prot', '1'])).rejects.toThrow(/^[^\n]*--port[^\n]*\n[^\n]*--help\n$/);
  });
});
