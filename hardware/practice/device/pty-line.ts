import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync } from 'node:fs';
import { rm } from 'node:fs/promises';
import type { Readable, Writable } from 'node:stream';
import { setTimeout as delay } from 'node:timers/promises';

/** A cable of the simulated instrument: a pseudo-terminal that is there or not, opened by somebody or not. */
export interface PtyLine {
  readonly plugged: boolean;
  readonly open: boolean;
  /** Lost when nobody has the line open, as on a real wire. */
  say(bytes: Uint8Array): void;
  /** Resolves when the link can be opened. */
  plug(): Promise<void>;
  /** The link is gone and whoever had it open sees a hang-up. */
  unplug(): Promise<void>;
}

export interface PtyEvents {
  opened(): void;
  closed(): void;
  data(bytes: Uint8Array): void;
  /** socat went by itself, and could not be started again. */
  failed(why: string): void;
}

/**
 * socat says this once it watches over a tty that somebody opened. Before that what we wrote would pile up and reach the opener as old news,
 * so it waits for the opener (`wait-slave`) and ends when that one closes; then the next one is started under the same name.
 */
const OPENED = 'starting data transfer loop';
const MADE = 'PTY is';
/** It makes the link a moment after it has said so. */
const LINK_MS = 2;

/**
 * While it waits, socat sees no end of its input, so a killed parent would leave it behind. The shell between holds a pipe of ours on
 * descriptor 3 and ends socat when that pipe does.
 */
const SHELL =
  'exec 4<&0; socat -d -d -t 0.01 "$1" STDIO <&4 3<&- & pid=$!; exec 4<&-; { read -r end <&3; kill "$pid"; } 2>/dev/null & watch=$!; wait "$pid"; kill "$watch" 2>/dev/null';

/** More than this unsent and the reader has stalled: what is said then is lost. */
const BACKLOG = 4_096;

export const createPtyLine = (path: string, events: PtyEvents): PtyLine => {
  let socat: Socat | null = null;
  let plugged = false;

  const gone = (ended: Socat): void => {
    if (socat !== ended) return;
    socat = null;
    if (ended.open) events.closed();
    // The reader closed: the instrument still hangs on its cable.
    if (plugged) start().catch((error: unknown) => events.failed(String(error)));
  };
  const start = (): Promise<void> => {
    socat = startSocat(path, { ...events, gone });
    return socat.ready;
  };

  return {
    get plugged() {
      return plugged;
    },
    get open() {
      return socat?.open === true;
    },
    say(bytes) {
      if (socat?.open === true && socat.input.writableLength < BACKLOG) socat.input.write(bytes);
    },
    async plug() {
      if (plugged) return;
      plugged = true;
      await start();
    },
    async unplug() {
      if (!plugged) return;
      plugged = false;
      const ending = socat;
      socat = null;
      // The name goes first: the kernel gives a dead tty's number to the next one, which may be a stranger's.
      await rm(path, { force: true });
      await ending?.end();
      if (ending?.open === true) events.closed();
    },
  };
};

interface Socat {
  readonly input: Writable;
  readonly open: boolean;
  /** Resolves when the link is there; rejects when socat ended before. */
  readonly ready: Promise<void>;
  end(): Promise<void>;
}

const linked = async (path: string): Promise<void> => {
  for (let tries = 0; tries < 500 && !existsSync(path); tries += 1) await delay(LINK_MS);
};

const startSocat = (path: string, events: Pick<PtyEvents, 'opened' | 'data'> & { gone(socat: Socat): void }): Socat => {
  const child = spawn('sh', ['-c', SHELL, 'sh', `PTY,link=${path},raw,echo=0,wait-slave,pty-interval=0.02`], {
    stdio: ['pipe', 'pipe', 'pipe', 'pipe'],
  });
  const [input, output, words, lifeline] = child.stdio as object as readonly [Writable, Readable, Readable, Writable];
  // A write that meets an ended socat is an unplugged instrument still talking.
  for (const end of [input, lifeline]) end.on('error', () => {});
  output.on('data', (chunk: Buffer) => events.data(new Uint8Array(chunk)));
  const exited = once(child, 'exit');
  let open = false;
  let said = '';
  const ready = new Promise<void>((resolve, reject) => {
    words.setEncoding('utf8').on('data', (text: string) => {
      if (open) return;
      said += text;
      if (said.includes(MADE)) linked(path).then(resolve, reject);
      if (!said.includes(OPENED)) return;
      open = true;
      events.opened();
    });
    child.once('error', reject);
    child.once('exit', () => reject(new Error(`socat could not make ${path}: ${said.trim() || 'is it installed?'}`)));
  });
  const socat: Socat = {
    input,
    get open() {
      return open;
    },
    ready,
    async end() {
      lifeline.destroy();
      await exited;
    },
  };
  ready
    .then(() => exited)
    .then(
      () => events.gone(socat),
      () => {},
    );
  return socat;
};
