'use client';
import { useEffect, useRef } from 'react';
import type { BarsDue } from '#lib/protocol/bars';
import { shortMoment } from '#lib/words/times';
import { useDisplay } from '../../_live/use';
import { barsApi } from '../bars-api';
import { useAsked } from '../use-asked';
import { dueMessages as words } from './due-messages';
import { recallReminding, remind, reminding } from './remind';

/** A window opens by the hour. */
const EVERY_MS = 30_000;
/** Beside the word, so that no word of the head moves when it comes. */
const BESIDE = { position: 'absolute', marginLeft: '0.15em', fontWeight: 700, transform: 'translateY(-0.35em)' } as const;

type Log = BarsDue['logs'][number];
const keyOf = ({ id, what }: Log): string => `${id} ${what}`;

/** How many logs can leave their mould now, or wait to be cut: in the head of every page on paper, and as a notice where that was asked for. */
export function DueCount() {
  const { asked, put } = useAsked(barsApi.due, { everyMs: EVERY_MS });
  const logs = asked.state === 'there' ? asked.value.logs : null;
  useNotices(logs);
  useHidden(put);
  if (logs === null || logs.length === 0) return null;
  return (
    <>
      <sup style={BESIDE} aria-hidden="true" data-due={logs.length}>
        {logs.length}
      </sup>
      <span className="unseen">{words.spoken(logs.length)}</span>
    </>
  );
}

/** A page nobody looks at asks nothing, but where it was asked to tell. */
const useHidden = (put: (value: BarsDue) => void): void => {
  const newest = useRef(put);
  useEffect(() => {
    newest.current = put;
  });
  useEffect(() => {
    const look = async (): Promise<void> => {
      if (document.visibilityState === 'visible' || !reminding.getState()) return;
      const answer = await barsApi.due();
      if (answer.ok) newest.current(answer.value);
    };
    const timer = setInterval(() => void look(), EVERY_MS);
    return () => clearInterval(timer);
  }, []);
};

/** What was due when the page opened is in its count; what becomes due while it is open is told once. */
const useNotices = (logs: readonly Log[] | null): void => {
  const { locale } = useDisplay();
  const known = useRef<ReadonlySet<string> | null>(null);
  useEffect(recallReminding, []);
  useEffect(() => {
    if (logs === null) return;
    const before = known.current;
    known.current = new Set(logs.map(keyOf));
    if (before === null) return;
    for (const log of logs.filter((one) => !before.has(keyOf(one)))) {
      const { what, mark, name, before: by } = log;
      const body = by === null ? '' : words.notice.before(shortMoment(by, { offsetMin: null, locale }));
      remind(keyOf(log), words.notice[what](mark, name), body);
    }
  }, [logs, locale]);
};
