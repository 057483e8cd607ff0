'use client';
import Link from 'next/link';
import { useState } from 'react';
import type { BatchList, BatchListRow, HttpProblem } from '#lib/protocol/http';
import { see } from '../../_live/selectors';
import { useLive } from '../../_live/use';
import { api } from '../../_ui/api';
import { BatchTable } from '../../_ui/batch-table';
import { PaperPage } from '../../_ui/paper';
import { Asking, Problem, ProblemSection } from '../../_ui/problem';
import { useAsked } from '../../_ui/use-asked';
import { PaperSection, PaperTitle, Steps } from '../../_ui/section';
import { messages } from '../messages';
import { on } from '../../_ui/classes';

const PAGE = 50;

/** Every batch of this bench, newest first. */
export function BatchesPage() {
  const standing = useLive(({ batch }) => `${batch?.id ?? ''} ${batch?.version ?? 0}`);
  const { asked, again } = useAsked(() => api.batches(null, PAGE), { revision: standing });
  const realm = useLive(see.realm);
  return (
    <PaperPage foot={messages.title}>
      <PaperTitle
        title={messages.title}
        lead={asked.state === 'there' ? leadOf(asked.value) : undefined}
        side={realm === null ? null : <p>{messages.realm[realm]}</p>}
      >
        {asked.state === 'asking' ? <Asking /> : null}
      </PaperTitle>
      {asked.state === 'failed' ? <ProblemSection problem={asked.problem} onAgain={again} /> : null}
      {asked.state === 'there' ? <Listed first={asked.value} /> : null}
    </PaperPage>
  );
}

const isMarked = ({ overPours, overrides, byHand }: BatchListRow): boolean => overPours + overrides + byHand > 0;

const leadOf = ({ batches, next }: BatchList): string => {
  const { lead } = messages;
  if (batches.length === 0) return lead.none;
  const marked = batches.filter(isMarked).length;
  return `${lead.some(batches.length, next !== null)} ${marked === 0 ? lead.clean : lead.marked(marked)}`;
};

function Listed({ first }: { readonly first: BatchList }) {
  // Older pages hang on to the newest one: what is begun meanwhile appears above them.
  const [older, setOlder] = useState<BatchList | null>(null);
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<HttpProblem | null>(null);
  if (first.batches.length === 0) return <Empty />;
  const seen = new Set(first.batches.map(({ id }) => id));
  const rows = [...first.batches, ...(older?.batches.filter(({ id }) => !seen.has(id)) ?? [])];
  const next = (older ?? first).next;
  const more = async (): Promise<void> => {
    setBusy(true);
    const answer = await api.batches(next, PAGE);
    setBusy(false);
    setProblem(answer.ok ? null : answer.problem);
    if (answer.ok) setOlder({ batches: [...(older?.batches ?? []), ...answer.value.batches], next: answer.value.next });
  };
  const { list } = messages;
  return (
    <PaperSection
      name={list.title}
      note={
        <>
          <p>{list.note}</p>
          <p>{list.teach}</p>
        </>
      }
    >
      <BatchTable rows={rows} />
      {problem === null ? null : <Problem problem={problem} />}
      {next === null ? null : (
        <div className={on('acts')}>
          <button type="button" className={on('act')} disabled={busy} onClick={() => void more()}>
            {busy ? list.asking : list.more}
          </button>
        </div>
      )}
    </PaperSection>
  );
}

function Empty() {
  const { empty } = messages;
  return (
    <PaperSection name={empty.title}>
      <Steps steps={empty.steps} />
      <div className={on('acts')}>
        <Link className={on('act first')} href="/bench" prefetch={false}>
          {empty.act}
        </Link>
      </div>
    </PaperSection>
  );
}
