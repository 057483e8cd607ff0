import { runApart } from '../apart';
import { StoreProblem } from '../store/problem';
import type { Copied } from './copy';
import type { Told } from './told';

export interface Copying {
  readonly done: Promise<Copied>;
  /** Ends it; what it leaves is unfinished and has no name. */
  stop(): void;
}

/** `copyRecord` in a process of its own: the bench goes on weighing while a large record is copied and looked at. */
export const copyApart = (from: string, to: string): Copying => {
  const copying = runApart<Told>('backup', [from, to]);
  const done = copying.told.then((told) => {
    if (typeof told === 'string') throw broken(to, told);
    if (!told.ok) throw new StoreProblem(told);
    return told.copied;
  });
  return { done, stop: () => copying.stop() };
};

const broken = (to: string, why: string): StoreProblem =>
  new StoreProblem({
    happened: `The copy ${to} was broken off (${why.split('\n')[0] ?? ''}).`,
    kept: 'The record itself is as it was, and earlier copies are kept.',
    todo: 'It is tried again within the hour.',
  });
