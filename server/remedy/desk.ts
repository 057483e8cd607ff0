import { Worker } from 'node:worker_threads';
import { withoutSolver } from '#lib/work/batch/remedy/answer';
import type { AnswerRemedy, RemedyAnswer } from '#lib/work/batch/remedy/index';
import type { Asked, Told } from './messages';

export interface RemedyDesk {
  readonly answer: AnswerRemedy;
  /** The solver is loaded and warm. Never rejects: a solver that does not come leaves `answer` as it is without one. */
  ready(): Promise<void>;
  stop(): Promise<void>;
}

interface DeskParts {
  /** Longest a person waits for cards. */
  readonly patienceMs: number;
  /** For the log: why something could not be worked out. */
  readonly trouble: (what: string, why: string) => void;
  /** Left out, the worker of this program. */
  readonly open?: () => Worker;
}

/** In the bundle the worker lies beside it, built; else it is read as it is written. */
const openWorker = (): Worker =>
  new Worker(new URL(import.meta.url.endsWith('.mjs') ? './remedy-worker.mjs' : './worker-as-written.mjs', import.meta.url));

/** A worker that failed is not opened again at once, and each time without coming to life later: to this. */
const REST_MS = { first: 2_000, longest: 120_000 };

interface Waiting {
  readonly id: number;
  readonly done: (answer: RemedyAnswer | null) => void;
}

/**
 * Questions to the solver in its own thread, one after another: a solver that hangs or dies holds up no weight and no screen. What is not
 * answered in time is answered with what remains without it, and the thread is opened anew.
 */
export const createRemedyDesk = ({ patienceMs, trouble, open = openWorker }: DeskParts): RemedyDesk => {
  let worker: Worker | null = null;
  let warm: Promise<boolean> = Promise.resolve(false);
  let waiting: Waiting | null = null;
  let turn: Promise<unknown> = Promise.resolve();
  let asked = 0;
  let stopped = false;
  let resting: NodeJS.Timeout | null = null;
  let rest = REST_MS.first;

  const lost = (from: Worker, why: string): void => {
    if (from !== worker) return;
    worker = null;
    if (stopped) return;
    trouble('the solver of remedies ended', why);
    waiting?.done(null);
    resting = setTimeout(start, rest);
    rest = Math.min(2 * rest, REST_MS.longest);
    resting.unref();
  };

  const start = (): void => {
    resting = null;
    if (stopped) return;
    const one = open();
    worker = one;
    one.unref();
    warm = new Promise((resolve) => {
      one.on('message', (told: Told) => {
        if (told.kind === 'ready') {
          rest = REST_MS.first;
          resolve(true);
        } else if (told.id !== waiting?.id) return;
        else if (told.kind === 'answer') waiting.done(told.answer);
        else {
          trouble('a remedy could not be worked out', told.why);
          waiting.done(null);
        }
      });
      one.on('error', (error: unknown) => {
        resolve(false);
        lost(one, error instanceof Error ? error.message : String(error));
      });
      one.on('exit', (code) => {
        resolve(false);
        lost(one, `exit ${code}`);
      });
    });
  };
  start();

  const ask = (question: Asked['question']): Promise<RemedyAnswer | null> => {
    const to = worker;
    if (to === null) return Promise.resolve(null);
    asked += 1;
    const id = asked;
    return new Promise((resolve) => {
      const tooLong = setTimeout(() => {
        trouble('a remedy took too long', `${patienceMs} ms`);
        waiting?.done(null);
        void to.terminate();
      }, patienceMs);
      waiting = {
        id,
        done(answer) {
          clearTimeout(tooLong);
          waiting = null;
          resolve(answer);
        },
      };
      // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a thread, not a window: there is no origin to name
      to.postMessage({ id, question } satisfies Asked);
    });
  };

  return {
    async answer(question) {
      const mine = turn.then(() => ask(question));
      turn = mine.catch(() => null);
      try {
        return (await mine) ?? withoutSolver(question);
      } catch (error) {
        trouble('a remedy could not be asked for', error instanceof Error ? error.message : String(error));
        return withoutSolver(question);
      }
    },
    ready: async () => {
      await warm;
    },
    async stop() {
      stopped = true;
      if (resting !== null) clearTimeout(resting);
      waiting?.done(null);
      await worker?.terminate();
    },
  };
};
