import type { UpcastFailure } from '#lib/work/stored';
import { StoreProblem } from './problem';

/** A line that this program cannot read, of a batch or of bars: nothing is concluded from the others. */
export const unreadableStream = (whose: string, at: number, { code, detail }: UpcastFailure): StoreProblem =>
  new StoreProblem({
    happened:
      code === 'malformed'
        ? `Entry ${at + 1} of ${whose} is not what any Potwatch wrote (${detail}).`
        : `Entry ${at + 1} of ${whose} was written by a newer Potwatch (${detail}).`,
    kept: 'It is kept as it is, and nothing more is recorded for it.',
    todo: code === 'malformed' ? 'Copy the data folder to a safe place and ask for help.' : 'Start the newer version.',
  });
