import { spawn, type ChildProcessByStdio } from 'node:child_process';
import { once } from 'node:events';
import { closeSync, constants, openSync, rmSync } from 'node:fs';
import { mkdtemp } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Readable, Writable } from 'node:stream';

/** A real kernel tty with the test at its far end, where the instrument would be. */
export interface Pty {
  /** What the program under test opens; a link that stays the same across `kill` and `replug`. */
  readonly path: string;
  /** Sends bytes as the instrument would; resolves when socat's pipe took them. */
  write(bytes: Uint8Array | string): Promise<void>;
  /** Hears what the program wrote to the instrument. Returns the way to stop hearing. */
  onData(listener: (bytes: Uint8Array) => void): () => void;
  /** Pulls the plug: the name is gone and whoever had it open sees a hang-up. */
  kill(): Promise<void>;
  /** A new tty under the old name, after `kill`. Resolves when it can be opened. */
  replug(): Promise<void>;
  /** Freezes the line: it stays open, but nothing moves until `cont`. */
  stop(): void;
  cont(): void;
  /** Ends everything and removes the temporary folder. Idempotent. */
  close(): Promise<void>;
}

type Socat = ChildProcessByStdio<Writable, Readable, Readable>;

/** socat says this once both ends exist, the link included. */
const READY = 'starting data transfer loop';

async function startSocat(path: string): Promise<Socat> {
  // The standard streams as far end: should this process die, socat reads an end of file and goes too.
  const socat = spawn('socat', ['-d', '-d', `PTY,raw,echo=0,link=${path}`, 'STDIO'], { stdio: 'pipe' });
  // A write that meets a killed socat is an unplugged instrument still talking: no error of the test's.
  socat.stdin.on('error', () => {});
  await new Promise<void>((resolve, reject) => {
    let said = '';
    socat.stderr.setEncoding('utf8').on('data', (text: string) => {
      if (said.includes(READY)) return;
      said += text;
      if (said.includes(READY)) resolve();
    });
    socat.once('error', reject);
    socat.once('exit', () => reject(new Error(`socat ended before the tty was there: ${said}`)));
  });
  return socat;
}

/** Opens a pseudo-terminal whose link lies in a folder of its own; `name` is the link's name there. */
export async function ptyPair(name = 'instrument'): Promise<Pty> {
  const folder = await mkdtemp(join(tmpdir(), 'pty-'));
  const path = join(folder, name);
  const listeners = new Set<(bytes: Uint8Array) => void>();
  let line: { readonly socat: Socat; readonly held: number } | null = null;

  async function plug(): Promise<void> {
    const socat = await startSocat(path);
    // Held open here too, else socat takes the program's own close for the end of the line.
    const held = openSync(path, constants.O_RDWR | constants.O_NOCTTY | constants.O_NONBLOCK);
    socat.stdout.on('data', (chunk: Buffer) => {
      for (const hear of listeners) hear(new Uint8Array(chunk));
    });
    line = { socat, held };
  }

  async function kill(): Promise<void> {
    if (line === null) return;
    const { socat, held } = line;
    line = null;
    // The name goes first: the kernel gives a dead tty's number to the next one, which may be a stranger's.
    rmSync(path, { force: true });
    closeSync(held);
    const gone = once(socat, 'exit');
    socat.kill('SIGKILL');
    await gone;
  }

  const signal = (name: NodeJS.Signals): void => {
    line?.socat.kill(name);
  };

  await plug();
  return {
    path,
    write: (bytes) =>
      new Promise((resolve) => {
        if (line === null) resolve();
        else line.socat.stdin.write(bytes, () => resolve());
      }),
    onData(listener) {
      listeners.add(listener);
      return () => void listeners.delete(listener);
    },
    kill,
    async replug() {
      if (line !== null) throw new Error('already plugged in');
      await plug();
    },
    stop: () => signal('SIGSTOP'),
    cont: () => signal('SIGCONT'),
    async close() {
      await kill();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
