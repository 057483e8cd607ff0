'use client';
import Link from 'next/link';
import type { BatchList } from '#lib/protocol/http';
import { see } from '../../_live/selectors';
import { useDisplay, useLive } from '../../_live/use';
import { api } from '../../_ui/api';
import { BatchTable } from '../../_ui/batch-table';
import { MeasuredQuantity } from '../../_ui/figures';
import { PaperPage } from '../../_ui/paper';
import { Asking, Problem, ProblemSection } from '../../_ui/problem';
import { showIn } from '#lib/words/quantities';
import { clockText, dayText } from '#lib/words/times';
import { Poured } from '../../_ui/due/poured';
import { useAsked } from '../../_ui/use-asked';
import { useNow } from '../../_ui/use-now';
import { PaperSection, PaperTitle } from '../../_ui/section';
import { messages } from '../messages';
import { Begin, BeforeLye } from './begin';
import { DueToday } from './due';
import { OnBench } from './on-bench';
import { useDues } from './use-dues';
import { instrumentsOf, leadOf, onBench } from './standing';
import { on } from './classes';

const LATE = 6;

/** Home: what is on the bench, what was made of late, how the instruments are, how to start. */
export function TodayPage() {
  const standing = useLive(({ batch }) => `${batch?.id ?? ''} ${batch?.status ?? ''}`);
  const { asked, again } = useAsked(() => api.batches(null, LATE), { revision: standing });
  const { asked: health } = useAsked(api.health);
  const busy = useLive((state) => onBench(state) !== null);
  const dues = useDues();
  const nothingMade = asked.state === 'there' && asked.value.batches.length === 0;
  const codeRefused = useLive(see.codeRefused);
  const readOnly = health.state === 'there' ? health.value.journal.readOnly : null;
  return (
    <PaperPage foot={messages.title}>
      <Title nothingMade={nothingMade} due={messages.due.lead(dues.map(({ what }) => what))} />
      {readOnly === null ? null : (
        <ProblemSection problem={{ error: messages.readOnly.title, kept: readOnly, todo: messages.readOnly.todo }} />
      )}
      {codeRefused ? <ProblemSection problem={messages.codeRefused} /> : null}
      {busy ? <OnBench /> : null}
      <Poured revision={standing} />
      <DueToday dues={dues} />
      {asked.state === 'asking' ? (
        <PaperSection name={messages.late.title}>
          <Asking />
        </PaperSection>
      ) : null}
      {asked.state === 'failed' ? <ProblemSection problem={asked.problem} onAgain={again} /> : null}
      {nothingMade || busy || asked.state !== 'there' || readOnly !== null ? null : <Begin first={false} />}
      {asked.state === 'there' && !nothingMade ? <Late list={asked.value} problem={asked.problem} /> : null}
      {nothingMade ? <Begin first /> : null}
      <Instruments />
      {nothingMade ? <BeforeLye /> : null}
    </PaperPage>
  );
}

function Title({ nothingMade, due }: { readonly nothingMade: boolean; readonly due: string }) {
  const { locale } = useDisplay();
  const now = useNow();
  const realm = useLive(see.realm);
  const lead = useLive(leadOf);
  const zone = { offsetMin: null, locale };
  return (
    <PaperTitle
      title={nothingMade ? messages.nothingYet : now === null ? messages.title : dayText(now, zone)}
      lead={nothingMade ? messages.lead.empty : `${lead} ${due}`}
      side={
        <>
          <p className={on('id')}>{now === null ? '' : clockText(now, zone)}</p>
          <Room />
          {realm === null || realm === 'real' ? null : (
            <p>
              <b>{messages.realm[realm]}</b>
            </p>
          )}
        </>
      }
    />
  );
}

/** The room's temperature, only while its probe is fresh. */
function Room() {
  const display = useDisplay();
  const value = useLive((state) => see.room(state)?.value ?? null);
  if (value === null) return null;
  return (
    <p>
      {messages.room('')}
      <MeasuredQuantity text={showIn(display).temperature(value)} />, {messages.now}
    </p>
  );
}

function Late({ list, problem }: { readonly list: BatchList; readonly problem: Parameters<typeof Problem>[0]['problem'] | null }) {
  const { late } = messages;
  return (
    <PaperSection name={late.title} note={<p>{late.note}</p>}>
      {problem === null ? null : <Problem problem={problem} />}
      <BatchTable rows={list.batches} />
      {list.next === null ? null : (
        <p className={on('gap')}>
          {late.newest(list.batches.length)} <Link href="/batches">{late.all}</Link>
        </p>
      )}
    </PaperSection>
  );
}

function Instruments() {
  const show = showIn(useDisplay());
  const words = useLive(instrumentsOf(show));
  const { instruments } = messages;
  return (
    <PaperSection name={instruments.title}>
      <p className={on('reading')}>{words}</p>
      <p>
        <Link href="/setup" prefetch={false}>
          {instruments.setup}
        </Link>
      </p>
    </PaperSection>
  );
}
