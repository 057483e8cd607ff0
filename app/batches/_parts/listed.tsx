'use client';
import { useState } from 'react';
import type { BatchFind } from '#lib/protocol/find';
import type { BatchList, BatchListRow, HttpProblem } from '#lib/protocol/http';
import { batchesApi } from '../../_ui/batches-api';
import { BatchTable } from '../../_ui/batch-table';
import { on } from '../../_ui/classes';
import { Problem } from '../../_ui/problem';
import { messages } from '../messages';

export const PAGE = 50;

interface ListedProps {
  readonly first: BatchList;
  /** Of one status; `null`: of any. */
  readonly status: BatchListRow['status'] | null;
  /** What the first page was narrowed by. */
  readonly find: BatchFind;
}

/** A page of batches, and older ones for the asking. */
export function Listed({ first, status, find }: ListedProps) {
  // Older pages hang on to the newest one: what is begun meanwhile appears above them.
  const [older, setOlder] = useState<BatchList | null>(null);
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<HttpProblem | null>(null);
  const seen = new Set(first.batches.map(({ id }) => id));
  const rows = [...first.batches, ...(older?.batches.filter(({ id }) => !seen.has(id)) ?? [])];
  const next = (older ?? first).next;
  const more = async (): Promise<void> => {
    setBusy(true);
    const answer = await batchesApi.find(find, next, PAGE, status);
    setBusy(false);
    setProblem(answer.ok ? null : answer.problem);
    if (answer.ok) setOlder({ batches: [...(older?.batches ?? []), ...answer.value.batches], next: answer.value.next });
  };
  const { list } = messages;
  return (
    <>
      <BatchTable rows={rows} />
      {problem === null ? null : <Problem problem={problem} />}
      {next === null ? null : (
        <div className={on('acts')}>
          <button type="button" className={on('act')} disabled={busy} onClick={() => void more()}>
            {busy ? list.asking : list.more}
          </button>
        </div>
      )}
    </>
  );
}
