'use client';
import { useEffect, useRef, useState } from 'react';
import type { Formula, PlanAnswer, PlanContext } from '#lib/work/formula/index';
import type { PlanQuestion, PlanReply } from './plan-worker';

/** The plan of a formula as it stands in the sheet. `fresh` is false while a newer one is being worked out. */
export interface Planning {
  readonly answer: PlanAnswer | null;
  readonly fresh: boolean;
}

interface Said extends PlanReply {
  readonly question: PlanQuestion;
}

const NOTHING: Planning = { answer: null, fresh: false };

/**
 * Works the plan out beside the page: one question at a time, and while one is under way only the newest of those that follow is kept.
 * `null` asks nothing.
 */
export const usePlan = (formula: Formula | null, context: PlanContext | null): Planning => {
  const [said, setSaid] = useState<Said | null>(null);
  const asker = useRef<Asker | null>(null);
  useEffect(() => {
    const made = createAsker(setSaid);
    asker.current = made;
    return () => {
      made.end();
      asker.current = null;
    };
  }, []);
  useEffect(() => {
    if (formula !== null && context !== null) asker.current?.ask(formula, context);
  }, [formula, context]);
  if (said === null) return NOTHING;
  return { answer: said.answer, fresh: said.question.formula === formula && said.question.context === context };
};

interface Asker {
  ask(formula: Formula, context: PlanContext): void;
  end(): void;
}

const createAsker = (tell: (said: Said) => void): Asker => {
  const worker = new Worker(new URL('./plan-worker.ts', import.meta.url), { type: 'module' });
  let n = 0;
  let under: PlanQuestion | null = null;
  let next: PlanQuestion | null = null;
  const send = (question: PlanQuestion): void => {
    under = question;
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a worker, not a window: there is no origin to name
    worker.postMessage(question);
  };
  worker.addEventListener('message', ({ data }: MessageEvent<PlanReply>) => {
    if (under?.n === data.n) tell({ ...data, question: under });
    under = null;
    if (next !== null) send(next);
    next = null;
  });
  return {
    ask(formula, context) {
      n += 1;
      if (under === null) send({ n, formula, context });
      else next = { n, formula, context };
    },
    end: () => worker.terminate(),
  };
};
