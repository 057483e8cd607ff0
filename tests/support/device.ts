import { spawn } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { once } from 'node:events';

/** One line of JSON from the simulated instrument: an event, a refusal, or what is so after an act. */
export interface DeviceLine {
  readonly event?: 'ready' | 'opened' | 'closed';
  readonly refused?: string;
  readonly why?: string;
  readonly after?: string;
  readonly truth?: Readonly<Record<string, string | number | boolean | null>>;
}

/** The stand-alone simulated instrument as a process of its own, on a pseudo-terminal in a folder of its own. */
export interface DeviceProcess {
  readonly path: string;
  readonly pid: number;
  /** Everything it wrote, in order. */
  readonly lines: readonly DeviceLine[];
  /** The first line from now on that fits. */
  next(fits: (line: DeviceLine) => boolean): Promise<DeviceLine>;
  /** Tells it an act and waits for the truth after it; rejects when it is refused. */
  tell(act: {
    readonly act: string;
    readonly [value: string]: unknown;
  }): Promise<Readonly<Record<string, string | number | boolean | null>>>;
  /** Sends a line as it stands. */
  type(line: string): void;
  /** Ends it by this signal; resolves with its exit code, `null` when the signal killed it. */
  end(signal?: NodeJS.Signals): Promise<number | null>;
}

/** Starts `npm run device` with these flags; resolves when its link can be opened. */
export const startDevice = async (...flags: readonly string[]): Promise<DeviceProcess> => {
  const folder = await mkdtemp(join(tmpdir(), 'device-'));
  const path = join(folder, 'instrument');
  const child = spawn(process.execPath, ['--import', 'tsx', 'hardware/practice/device.ts', '--pty', path, ...flags], {
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  const lines: DeviceLine[] = [];
  const waiting = new Set<(line: DeviceLine) => void>();
  createInterface({ input: child.stdout }).on('line', (text) => {
    const line = JSON.parse(text) as DeviceLine;
    lines.push(line);
    for (const hear of waiting) hear(line);
  });
  const exited = once(child, 'exit') as Promise<[number | null, NodeJS.Signals | null]>;
  const next = (fits: (line: DeviceLine) => boolean): Promise<DeviceLine> =>
    new Promise((resolve, reject) => {
      const hear = (line: DeviceLine): void => {
        if (!fits(line)) return;
        waiting.delete(hear);
        resolve(line);
      };
      waiting.add(hear);
      exited.then(() => reject(new Error('the simulated instrument has ended')), reject);
    });
  const type = (line: string): void => void child.stdin.write(`${line}\n`);
  const device: DeviceProcess = {
    path,
    pid: child.pid ?? 0,
    lines,
    next,
    async tell(act) {
      const answer = next((line) => line.after === act.act || line.refused === act.act);
      type(JSON.stringify(act));
      const { truth, why } = await answer;
      if (truth === undefined) throw new Error(`${act.act}: ${why}`);
      return truth;
    },
    type,
    async end(signal = 'SIGTERM') {
      if (child.exitCode === null && child.signalCode === null) child.kill(signal);
      const [code] = await exited;
      await rm(folder, { recursive: true, force: true });
      return code;
    },
  };
  await next((line) => line.event === 'ready');
  return device;
};
