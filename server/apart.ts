import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** Programs of ours that run beside the server: by the name they are bundled under, where their source stands. */
const PROGRAMS = { backup: './backup/program.ts', check: './store/check-program.ts' } as const;

/** In the bundle a program lies beside the server, built; else it is read as it is written. */
const programOf = (name: keyof typeof PROGRAMS): readonly string[] =>
  import.meta.url.endsWith('.mjs')
    ? [fileURLToPath(new URL(`./${name}.mjs`, import.meta.url))]
    : ['--import', import.meta.resolve('tsx'), fileURLToPath(new URL(PROGRAMS[name], import.meta.url))];

export interface Apart<T> {
  /** What it told, or in its own words why it told nothing. Never rejects. */
  readonly told: Promise<T | string>;
  stop(): void;
}

/** A program in a process of its own, so that the bench goes on weighing; it tells its end in one line of JSON. */
export const runApart = <T extends object>(name: keyof typeof PROGRAMS, args: readonly string[]): Apart<T> => {
  const child = spawn(process.execPath, [...programOf(name), ...args], { stdio: ['ignore', 'pipe', 'pipe'] });
  const said = { out: '', err: '' };
  child.stdout.on('data', (part: Buffer) => (said.out += part.toString()));
  child.stderr.on('data', (part: Buffer) => (said.err += part.toString()));
  const told = new Promise<T | string>((resolve) => {
    child.once('error', (error) => resolve(error.message));
    child.once('close', (code) => resolve(answerOf<T>(said.out) ?? (said.err.trim() || `it ended with ${String(code)}`)));
  });
  return { told, stop: () => void child.kill('SIGKILL') };
};

const answerOf = <T>(stdout: string): T | null => {
  try {
    return JSON.parse(stdout) as T;
  } catch {
    return null;
  }
};
