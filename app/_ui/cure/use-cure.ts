'use client';
import { useEffect, useMemo, useRef, useState } from 'react';
import type { CureForecast } from '#lib/soap/shrink/index';
import { daysBetween, followedBy, lessonsIn, ruleOf } from '#lib/work/bars/cure';
import type { Followed, Unfollowed } from '#lib/work/bars/cure';
import type { CureKept } from '#lib/work/bars/documents';
import type { BarsSummary } from '#lib/work/bars/index';
import type { CureAsked, CureQuestion, CureReply } from './cure-worker';

/** What is forecast of one lot. `forecast` `undefined`: being worked out; `null`: these figures say nothing. */
export interface Cure {
  readonly followed: Followed;
  readonly forecast: CureForecast | null | undefined;
}

/** What is forecast of a lot, or why nothing can be. */
export type CureOf = (row: BarsSummary) => Cure | Unfollowed;

type Known = Readonly<Record<string, CureReply>>;

/** Forecasts of some lots, worked out beside the page; of one that cannot be followed, why. `all` teaches how this maker's bars dry. */
export const useCure = (rows: readonly BarsSummary[], all: readonly BarsSummary[], rule: CureKept | null, now: number | null): CureOf => {
  const [known, setKnown] = useState<Known>({});
  const worker = useRef<Worker | null>(null);
  useEffect(() => {
    const made = new Worker(new URL('./cure-worker.ts', import.meta.url), { type: 'module' });
    made.addEventListener('message', ({ data }: MessageEvent<CureReply>) => setKnown((before) => ({ ...before, [data.id]: data })));
    worker.current = made;
    return () => made.terminate();
  }, []);
  const question = useMemo(() => (rule === null || now === null ? null : questionOf(rows, all, rule, now)), [rows, all, rule, now]);
  const asked = useRef('');
  useEffect(() => {
    if (question === null) return;
    const text = JSON.stringify(question);
    if (text === asked.current) return;
    asked.current = text;
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a worker, not a window: there is no origin to name
    worker.current?.postMessage(question);
  }, [question]);
  return (row) => {
    const followed = followedBy(row);
    if (typeof followed === 'string') return followed;
    const key = question?.lots.find(({ id }) => id === row.id)?.key;
    const reply = known[row.id];
    return { followed, forecast: reply !== undefined && reply.key === key ? reply.forecast : undefined };
  };
};

const questionOf = (rows: readonly BarsSummary[], all: readonly BarsSummary[], rule: CureKept, now: number): CureQuestion => {
  const asking = ruleOf(rule);
  const lessons = lessonsIn(all);
  const lots = rows.flatMap((row): CureAsked[] => {
    const followed = followedBy(row);
    if (typeof followed === 'string') return [];
    const today = Math.max(0, daysBetween(followed.from, now));
    return [{ id: row.id, key: JSON.stringify([followed.watch, asking, lessons.length, today]), watch: followed.watch, today }];
  });
  return { rule: asking, lessons, lots };
};
