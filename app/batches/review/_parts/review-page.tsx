'use client';
import Link from 'next/link';
import { useSearchParams } from 'next/navigation';
import type { BatchPage } from '#lib/protocol/http';
import { see } from '../../../_live/selectors';
import { useDisplay, useLive } from '../../../_live/use';
import { api } from '../../../_ui/api';
import type { Answer } from '../../../_ui/api';
import { PaperPage } from '../../../_ui/paper';
import { Asking, ProblemSection } from '../../../_ui/problem';
import { clockText, dateText, dayText } from '#lib/words/times';
import { useAsked } from '../../../_ui/use-asked';
import { PaperTitle } from '../../../_ui/section';
import { messages } from '#lib/words/review/messages';
import { After } from './after';
import { Afterwards } from './afterwards';
import { AgainstPlan } from './against-plan';
import { Fills } from './fills';
import { Moulds } from './moulds';
import { Joining } from './joining';
import { Poured } from './poured';
import { Proof } from './proof';
import { Record } from './record';
import { Scales } from './scales';
import { Story } from './story';
import { amountsByHand, storyOf } from '#lib/words/review/told';
import { unboundName } from '#lib/words/instrument';
import { on } from './classes';
import type { NameOf } from './who';

const NO_ID: Answer<BatchPage> = { ok: false, problem: messages.noId, status: 404 };

/** One batch as it was made, beside what was planned. */
export function ReviewPage() {
  const id = useSearchParams().get('id') ?? '';
  // Another version of the batch on the bench is another review.
  const version = useLive(({ batch }) => (batch?.id === id ? batch.version : 0));
  const { asked, again } = useAsked(() => (id === '' ? Promise.resolve(NO_ID) : api.batch(id)), { key: id, revision: version });
  const { asked: bench } = useAsked(api.instruments);
  const names = new Map(
    bench.state === 'there' ? bench.value.instruments.map(({ config }) => [config.id as string, config.name] as const) : [],
  );
  const nameOf = (instrument: string): string => names.get(instrument) ?? unboundName(instrument);
  if (asked.state === 'there') return <Reviewed review={asked.value} nameOf={nameOf} again={again} />;
  return (
    <PaperPage>
      <PaperTitle title={messages.title}>{asked.state === 'asking' ? <Asking /> : null}</PaperTitle>
      {asked.state === 'failed' ? (
        <ProblemSection problem={asked.problem} onAgain={asked.problem === messages.noId ? undefined : again} />
      ) : null}
    </PaperPage>
  );
}

function Reviewed({ review, nameOf, again }: { readonly review: BatchPage; readonly nameOf: NameOf; readonly again: () => void }) {
  const story = storyOf(review);
  const { summary } = review;
  return (
    <PaperPage foot={messages.foot(summary.mark)}>
      <Title review={review} />
      <AgainstPlan review={review} story={story} nameOf={nameOf} />
      <Story review={review} story={story} nameOf={nameOf} />
      <Poured review={review} nameOf={nameOf} />
      <Joining review={review} />
      <After review={review} />
      <Moulds review={review} />
      <Fills review={review} />
      <Afterwards review={review} onSaid={again} />
      <Scales review={review} nameOf={nameOf} />
      <Record review={review} />
      <Proof review={review} />
    </PaperPage>
  );
}

function Title({ review }: { readonly review: BatchPage }) {
  const { locale } = useDisplay();
  const onBench = useLive(see.batch)?.id === review.summary.id;
  const { summary, lines, story } = review;
  const zone = { offsetMin: story[0]?.offsetMin ?? null, locale };
  const closed = lines.filter(({ status }) => status === 'closed');
  const lead = [
    messages.lead.lines(
      closed.length,
      lines.length,
      closed.filter(({ outcome }) => outcome === 'within').length,
      lines.filter(({ actual }) => actual > 0).length,
    ),
    messages.lead.departures(summary, lines.filter(({ moved }) => moved).length, amountsByHand(story)),
  ].join(' ');
  const day = `${dayText(summary.startedWall, zone)} ${dateText(summary.startedWall, zone).split(' ').at(-1) ?? ''}`.trim();
  const ended = summary.endedWall === null ? null : clockText(summary.endedWall, zone);
  const running = summary.status !== 'closed' && summary.status !== 'abandoned';
  return (
    <PaperTitle
      title={messages.titles[summary.status](summary.name)}
      lead={lead}
      side={
        <>
          <p className={on('id')}>{summary.mark}</p>
          <p className={on('kept')}>
            {messages.made(day, clockText(summary.startedWall, zone), ended)} {messages.version(review.formula.version)}
          </p>
          {summary.realm === 'real' ? null : (
            <p className={on('kept')}>
              <b>{messages.realm[summary.realm]}</b>
            </p>
          )}
        </>
      }
    >
      <div className={on('acts')}>
        {running && onBench ? (
          <Link className={on('act first')} href="/bench" prefetch={false}>
            {messages.acts.bench}
          </Link>
        ) : null}
        <button type="button" className={on(running ? 'act' : 'act first')} onClick={() => window.print()}>
          {messages.acts.print}
        </button>
        <Link className={on('act')} href="/batches" prefetch={false}>
          {messages.acts.list}
        </Link>
      </div>
    </PaperTitle>
  );
}
