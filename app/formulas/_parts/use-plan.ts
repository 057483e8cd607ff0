'use client';
import { useEffect, useRef, useState } from 'react';
import type { Formula, PlanAnswer, PlanContext } from '#lib/work/formula/index';
import type { PlanQuestion, PlanReply } from './plan-worker';

/** The plan of a formula as it stands in the sheet. `fresh` is false while a newer one is being worked out. */
export interface Planning {
  readonly answer: PlanAnswer | null;
  readonly fresh: boolean;
}

const NOTHING: Planning = { answer: null, fresh: false };

/**
 * Works the plan out beside the page: one question at a time, and while one is under way only the newest of those that follow is kept.
 * `null` asks nothing.
 */
export const usePlan = (formula: Formula | null, context: PlanContext | null): Planning => {
  const [said, setSaid] = useState<{ readonly n: number; readonly answer: PlanAnswer } | null>(null);
  const asked = useRef(0);
  const worker = useRef<ReturnType<typeof createAsker> | null>(null);
  useEffect(() => {
    const asker = createAsker(({ n, answer }) => setSaid({ n, answer }));
    worker.current = asker;
    return () => {
      asker.end();
      worker.current = null;
    };
  }, []);
  useEffect(() => {
    if (formula === null || context === null) return;
    asked.current += 1;
    worker.current?.ask({ n: asked.current, formula, context });
  }, [formula, context]);
  return said === null ? NOTHING : { answer: said.answer, fresh: said.n === asked.current };
};

const createAsker = (tell: (reply: PlanReply) => void) => {
  const worker = new Worker(new URL('./plan-worker.ts', import.meta.url), { type: 'module' });
  let busy = false;
  let next: PlanQuestion | null = null;
  const send = (question: PlanQuestion): void => {
    busy = true;
    worker.postMessage(question);
  };
  worker.addEventListener('message', ({ data }: MessageEvent<PlanReply>) => {
    busy = false;
    tell(data);
    if (next !== null) send(next);
    next = null;
  });
  return {
    ask(question: PlanQuestion): void {
      if (busy) next = question;
      else send(question);
    },
    end: () => worker.terminate(),
  };
};
