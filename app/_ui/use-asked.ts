'use client';
import { useEffect, useRef, useState } from 'react';
import type { HttpProblem } from '#lib/protocol/http';
import { useLive } from '../_live/use';
import type { Answer } from './api';

/** What was asked for. Once it is there it stays, with the problem of the newest try beside it. */
export type Asked<T> =
  | { readonly state: 'asking' }
  | { readonly state: 'there'; readonly value: T; readonly problem: HttpProblem | null }
  | { readonly state: 'failed'; readonly problem: HttpProblem };

export interface Asking<T> {
  readonly asked: Asked<T>;
  /** Asks again now. */
  readonly again: () => void;
  /** Puts in what another answer brought. */
  readonly put: (value: T) => void;
}

/** How often a list that other screens change is asked for again while it is looked at, ms. */
export const SHARED_EVERY_MS = 5000;

const ASKING = { state: 'asking' } as const;

const after = <T>(before: Asked<T>, answer: Answer<T>): Asked<T> => {
  if (answer.ok) return { state: 'there', value: answer.value, problem: null };
  return before.state === 'there' ? { ...before, problem: answer.problem } : { state: 'failed', problem: answer.problem };
};

export interface When {
  /** Another `key` is another question: what was there is gone at once. */
  readonly key?: string;
  /** Another `revision` is the same question with perhaps another answer: what was there stays until that has come. */
  readonly revision?: string | number;
  /** Asks again and again while the page is looked at. */
  readonly everyMs?: number | null;
}

/**
 * Asks when the page opens, when `When` says so, and when the bench machine is back after it was gone. An `ask` made anew each time the
 * page is drawn means the same question.
 */
export const useAsked = <T>(ask: () => Promise<Answer<T>>, { key = '', revision = 0, everyMs = null }: When = {}): Asking<T> => {
  const [held, setHeld] = useState<{ readonly key: string; readonly asked: Asked<T> }>({ key, asked: ASKING });
  const newest = useRef(ask);
  const run = useRef<() => void>(() => undefined);
  useEffect(() => {
    newest.current = ask;
  });
  useEffect(() => {
    let left = false;
    let timer: ReturnType<typeof setTimeout> | null = null;
    const later = (): void => {
      if (everyMs !== null) timer = setTimeout(() => void once(), everyMs);
    };
    const once = async (): Promise<void> => {
      if (timer !== null) clearTimeout(timer);
      if (everyMs !== null && document.visibilityState !== 'visible') return later();
      const answer = await newest.current();
      if (left) return undefined;
      setHeld((before) => ({ key, asked: after(before.key === key ? before.asked : ASKING, answer) }));
      return later();
    };
    run.current = () => void once();
    void once();
    return () => {
      left = true;
      if (timer !== null) clearTimeout(timer);
    };
  }, [key, everyMs]);
  const asked = useRef(revision);
  useEffect(() => {
    if (asked.current !== revision) run.current();
    asked.current = revision;
  }, [revision]);
  useBack(held.asked.state === 'failed', run);
  return {
    asked: held.key === key ? held.asked : ASKING,
    again: () => run.current(),
    put: (value) => setHeld({ key, asked: { state: 'there', value, problem: null } }),
  };
};

/** Asks again when the bench machine is back, or there at last. */
const useBack = (failed: boolean, run: { readonly current: () => void }): void => {
  const boot = useLive(({ link, standing }) => (link === 'up' ? (standing?.boot ?? null) : null));
  const known = useRef<string | null>(null);
  const lacking = useRef(failed);
  useEffect(() => {
    lacking.current = failed;
  });
  useEffect(() => {
    if (boot === null) return;
    if (known.current !== null || lacking.current) run.current();
    known.current = boot;
  }, [boot, run]);
};
