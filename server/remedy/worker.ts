import { parentPort } from 'node:worker_threads';
import { answerOf } from '#lib/work/batch/remedy/answer';
import { loadSolver } from './highs';
import type { Asked, Told } from './messages';
import { warmUp } from './warm-up';

/** Longest that one programme may take; the desk gives up on a question as a whole. */
const SECONDS = 0.2;

// oxlint-disable-next-line unicorn/require-post-message-target-origin -- a thread, not a window: there is no origin to name
const tell = (told: Told): void => parentPort?.postMessage(told);

const solve = await loadSolver({ seconds: SECONDS });
warmUp(solve);

parentPort?.on('message', ({ id, question }: Asked) => {
  try {
    tell({ kind: 'answer', id, answer: answerOf(question, solve) });
  } catch (error) {
    tell({ kind: 'failed', id, why: error instanceof Error ? error.message : String(error) });
  }
});
tell({ kind: 'ready' });
