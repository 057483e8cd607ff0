import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { StoreProblem } from '../store/problem';
import type { Copied } from './copy';
import type { Told } from './told';

/** In the bundle the program lies beside it, built; else it is read as it is written. */
const programOf = (): readonly string[] =>
  import.meta.url.endsWith('.mjs')
    ? [fileURLToPath(new URL('./backup.mjs', import.meta.url))]
    : ['--import', import.meta.resolve('tsx'), fileURLToPath(new URL('./program.ts', import.meta.url))];

export interface Copying {
  readonly done: Promise<Copied>;
  /** Ends it; what it leaves is unfinished and has no name. */
  stop(): void;
}

/** `copyRecord` in a process of its own: the bench goes on weighing while a large record is copied and looked at. */
export const copyApart = (from: string, to: string): Copying => {
  const child = spawn(process.execPath, [...programOf(), from, to], { stdio: ['ignore', 'pipe', 'pipe'] });
  const said = { out: '', err: '' };
  child.stdout.on('data', (part: Buffer) => (said.out += part.toString()));
  child.stderr.on('data', (part: Buffer) => (said.err += part.toString()));
  const done = new Promise<Copied>((resolve, reject) => {
    child.once('error', (error) => reject(broken(to, error.message)));
    child.once('close', (code) => {
      const told = answerOf(said.out);
      if (told?.ok === true) resolve(told.copied);
      else reject(told === null ? broken(to, said.err.trim() || `it ended with ${String(code)}`) : new StoreProblem(told));
    });
  });
  return { done, stop: () => void child.kill('SIGKILL') };
};

const answerOf = (stdout: string): Told | null => {
  try {
    return JSON.parse(stdout) as Told;
  } catch {
    return null;
  }
};

const broken = (to: string, why: string): StoreProblem =>
  new StoreProblem({
    happened: `The copy ${to} was broken off (${why.split('\n')[0] ?? ''}).`,
    kept: 'The record itself is as it was, and earlier copies are kept.',
    todo: 'It is tried again within the hour.',
  });
