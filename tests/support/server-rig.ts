import { spawn } from 'node:child_process';
import type { ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { pino } from 'pino';
import { io } from 'socket.io-client';
import type { Socket } from 'socket.io-client';
import type { BenchIntent, IntentAnswer, IntentWant, LeaseWant } from '#lib/protocol/intent';
import type { Hello, LeaseView, RecordLane, ScreenAuth, ScreenToServer, ServerToScreen } from '#lib/protocol/lanes';
import type { Beat, LiveFrame } from '#lib/protocol/live';
import { evolve, fold } from '#lib/work/batch/index';
import type { BatchState, Entry } from '#lib/work/batch/index';
import { BUNDLED, SERVER_PARTS } from '../../server/bundling.mjs';
import type { Options } from '#server/options';
import { startServer } from '#server/server';
import type { RunningServer } from '#server/server';

const ROOT = dirname(dirname(dirname(fileURLToPath(import.meta.url))));

export const tempFolder = (): { readonly path: string; remove(): void } => {
  const path = mkdtempSync(join(tmpdir(), 'server-'));
  return { path, remove: () => rmSync(path, { recursive: true, force: true }) };
};

/** A port nobody has just now: for a server that is to come back under the same address. */
export const freePort = async (): Promise<number> => {
  const server = createServer();
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  await new Promise((resolve) => server.close(resolve));
  return port;
};

export const optionsFor = (data: string, more: Partial<Options> = {}): Options => ({
  port: 0,
  data,
  host: '127.0.0.1',
  allowHosts: [],
  instruments: [],
  practice: true,
  ptyIsReal: false,
  past: false,
  seed: 41,
  dev: false,
  ...more,
});

/** The whole server in this process. */
export const serverHere = (options: Options, onCode?: (code: string) => void): Promise<RunningServer> =>
  startServer(options, pino({ level: 'silent' }), onCode);

let bundled: Promise<string> | null = null;
/**
 * The server as it is shipped: one bundle, one level below the checkout. Named by what is in it and put there whole, so that test files
 * running side by side share it and none reads half of one.
 */
const bundle = (): Promise<string> => {
  bundled ??= (async () => {
    const { outputFiles } = await build({
      ...BUNDLED,
      absWorkingDir: ROOT,
      entryPoints: SERVER_PARTS,
      outdir: join(ROOT, 'dist'),
      write: false,
    });
    const built = (name: string): Uint8Array =>
      outputFiles.find(({ path }) => basename(path).startsWith(`${name}.`))?.contents ?? new Uint8Array();
    const bytes = built('server');
    const outfile = join(ROOT, 'dist', `test-server-${createHash('sha256').update(bytes).digest('hex').slice(0, 12)}.mjs`);
    mkdirSync(dirname(outfile), { recursive: true });
    removeOld(dirname(outfile));
    // The others are looked for beside the server, under the names they are shipped with.
    for (const name of Object.keys(SERVER_PARTS).filter((part) => part !== 'server'))
      putWhole(join(ROOT, 'dist', `${name}.mjs`), built(name));
    if (!existsSync(outfile)) putWhole(outfile, bytes);
    return outfile;
  })();
  return bundled;
};

const putWhole = (file: string, bytes: Uint8Array): void => {
  writeFileSync(`${file}.${process.pid}`, bytes);
  renameSync(`${file}.${process.pid}`, file);
};

const KEPT_MS = 3_600_000;
/** Bundles of earlier days; nobody runs them any more. */
const removeOld = (folder: string): void => {
  for (const name of readdirSync(folder).filter((file) => file.startsWith('test-server-')))
    if (Date.now() - statSync(join(folder, name)).mtimeMs > KEPT_MS) rmSync(join(folder, name), { force: true });
};

const running = new Set<ChildProcess>();
// A test that fails half-way must not leave its server behind.
process.on('exit', () => {
  for (const child of running) child.kill('SIGKILL');
});

export interface ServerProcess {
  readonly port: number;
  readonly child: ChildProcess;
  /** Everything it printed so far. */
  said(): string;
  /** Sends a signal and waits for the end; the exit code comes back, `null` when a signal ended it. */
  end(signal: NodeJS.Signals): Promise<number | null>;
}

/**
 * The server in a process of its own, to be frozen and killed. Resolves when it says where it is; rejects with its words when it ends first.
 * `past`: with the invented half-year that a first start lays out. `began` has the process before it says anything.
 */
export const serverProcess = async (
  args: readonly string[],
  env: Record<string, string> = {},
  { past = false, began }: { readonly past?: boolean; readonly began?: (child: ChildProcess) => void } = {},
): Promise<ServerProcess> => {
  const child = spawn(process.execPath, [await bundle(), ...args, ...(past ? [] : ['--no-past'])], {
    stdio: ['ignore', 'pipe', 'pipe'],
    env: { ...process.env, NODE_ENV: 'production', ...env },
  });
  began?.(child);
  running.add(child);
  child.once('exit', () => running.delete(child));
  let said = '';
  const ended = once(child, 'exit');
  const port = await new Promise<number>((resolve, reject) => {
    const hear = (text: string): void => {
      said += text;
      const found = /runs at http:\/\/localhost:(\d+)/.exec(said);
      if (found !== null) resolve(Number(found[1]));
    };
    child.stdout.setEncoding('utf8').on('data', hear);
    child.stderr.setEncoding('utf8').on('data', hear);
    void ended.then(([code]) => reject(new Error(`the server ended with ${String(code)}: ${said}`)));
  });
  return {
    port,
    child,
    said: () => said,
    async end(signal) {
      child.kill(signal);
      const [code] = (await ended) as [number | null];
      return code;
    },
  };
};

type Client = Socket<ServerToScreen, ScreenToServer>;

/** A screen: everything it was told, and the record folded as a page folds it. */
export interface ScreenRig {
  readonly socket: Client;
  readonly hellos: Hello[];
  readonly frames: LiveFrame[];
  readonly beats: Beat[];
  readonly leases: LeaseView[];
  batch(): BatchState | null;
  /** Resolves with the newest hello, once there is one of another boot than `than`. */
  greeted(than?: string): Promise<Hello>;
  /** Resolves with the next frame that fits. */
  frame(fits: (frame: LiveFrame) => boolean): Promise<LiveFrame>;
  lease(want: LeaseWant, label?: string): Promise<LeaseView>;
  intent(want: IntentWant, more?: Partial<BenchIntent>): Promise<IntentAnswer>;
  /**
   * `intent`, pressed again as the page tells a person to when the bench went on meanwhile: the program may put an entry of its own (an
   * alarm, a standstill of a busy machine) between what a screen saw and what it wants.
   */
  insist(want: IntentWant): Promise<IntentAnswer>;
  close(): void;
}

/** Whether an answer means: look, then press again. */
export const wentOn = (answer: IntentAnswer): boolean => !answer.ok && answer.refusal.code === 'moved-on';

/** Every instrument is heard: from here on no alarm of silence comes between what a test does. */
export const allHeard = (screen: ScreenRig): Promise<LiveFrame> =>
  screen.frame(({ scales, probes }) => [...scales, ...probes].every(({ freshness }) => freshness === 'fresh'));

let intents = 0;

export const screenAt = (port: number, auth: ScreenAuth = {}, headers: Record<string, string> = {}): ScreenRig => {
  const socket: Client = io(`http://127.0.0.1:${port}`, {
    transports: ['websocket'],
    auth,
    extraHeaders: headers,
    forceNew: true,
    reconnectionDelay: 200,
    reconnectionDelayMax: 2_000,
  });
  const hellos: Hello[] = [];
  const frames: LiveFrame[] = [];
  const beats: Beat[] = [];
  const leases: LeaseView[] = [];
  let batch: BatchState | null = null;
  let seq = 0;
  const take = (lane: RecordLane): void => {
    if (lane.from !== 0 && (lane.batch !== batch?.id || lane.from !== seq)) throw new Error(`the lane jumps from ${seq} to ${lane.from}`);
    const entries = lane.lines.map((line) => JSON.parse(line) as Entry);
    batch = lane.from === 0 ? fold(entries) : entries.reduce<BatchState | null>(evolve, batch);
    seq = lane.seq;
  };
  socket.on('hello', (hello) => {
    take(hello.batch);
    hellos.push(hello);
  });
  socket.on('live', (frame) => frames.push(frame));
  socket.on('beat', (beat) => beats.push(beat));
  socket.on('lease', (lease) => leases.push(lease));
  socket.on('record', take);

  const rig: ScreenRig = {
    socket,
    hellos,
    frames,
    beats,
    leases,
    batch: () => batch,
    async greeted(than) {
      for (;;) {
        const newest = hellos.at(-1);
        if (newest !== undefined && newest.boot !== than) return newest;
        await new Promise((resolve) => socket.once('hello', resolve));
      }
    },
    frame: (fits) =>
      new Promise((resolve) => {
        const hear = (frame: LiveFrame): void => {
          if (!fits(frame)) return;
          socket.off('live', hear);
          resolve(frame);
        };
        socket.on('live', hear);
      }),
    lease: (want, label = 'screen') => new Promise((resolve) => socket.emit('lease', { want, label }, resolve)),
    intent(want, more = {}) {
      intents += 1;
      const newest = beats.at(-1)?.at ?? hellos.at(-1)?.at ?? 0;
      const intent: BenchIntent = {
        id: `intent-${process.pid}-${String(intents).padStart(6, '0')}`,
        batch: want.kind === 'start' ? null : (batch?.id ?? null),
        expectedVersion: batch?.version ?? null,
        seen: { boot: hellos.at(-1)?.boot ?? 'none', episode: frames.at(-1)?.cue.episode ?? 0 },
        expires: newest + 5_000,
        want,
        ...more,
      };
      return new Promise((resolve) => socket.emit('intent', intent, resolve));
    },
    async insist(want) {
      for (;;) {
        const { boot, version } = { boot: hellos.at(-1)?.boot, version: batch?.version };
        const answer = await rig.intent(want);
        if (!wentOn(answer)) return answer;
        // What the bench went on to may be under way to this screen still.
        if (hellos.at(-1)?.boot === boot && batch?.version === version) await rig.frame(() => true);
      }
    },
    close: () => void socket.close(),
  };
  return rig;
};
