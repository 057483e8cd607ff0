'use client';
import { useState } from 'react';
import { massText } from '#lib/units/format';
import { mouldsOf } from '#lib/work/batch/moulds';
import { hadIn, leftOver, sourcesOf } from '#lib/work/batch/pouring/amounts';
import { allJobs, jobName, usualSources, type Job } from '#lib/work/batch/pouring/jobs';
import { standing, type Source } from '#lib/work/batch/pouring/types';
import type { BatchState } from '#lib/work/batch/index';
import type { Display } from '#lib/units/display';
import { see } from '../../_live/selectors';
import { useDisplay, useLive } from '../../_live/use';
import { HoldPress, Press } from '../../_ui/press';
import { pourWords } from '../messages-pour';
import { sheetMessages } from '../messages-sheets';
import { closeSheet, holdWords, intend, openSheet } from './controls';
import { Amount } from './out-of';
import type { Way } from './out-of';
import { sourceText } from './pour-words';
import { SheetFrame, SheetGrid } from './sheet';

const { sheet: words, patterns } = pourWords;
/** As many as stand on a small screen beside what is for all of them. */
const A_PAGE = 7;

type Want = Parameters<typeof intend>[0];
const send = (want: Want): void => (intend(want), closeSheet());

/** Every part, mould and rest of the batch, what was poured of each, and what to do with one of them. */
export function PourSheet() {
  const batch = useLive(see.batch);
  const [key, setKey] = useState<string | null>(null);
  if (batch === null) return null;
  const job = allJobs(batch).find((one) => one.key === key);
  return job === undefined ? <All batch={batch} onJob={setKey} /> : <One batch={batch} job={job} />;
}

const pouredOf = (batch: BatchState, job: Job, display: Display): string => {
  const { parts, left } = batch.pour;
  const mass =
    job.kind === 'part'
      ? standing(parts).find(({ id }) => id === job.part.id)?.mass
      : job.kind === 'left'
        ? standing(left).find(({ of }) => of === job.source)?.mass
        : mouldsOf(batch).find(({ n }) => n === job.mould.n)?.mass;
  const poured = mass == null ? words.todo : massText(mass, display);
  if (job.kind === 'left') return words.leftIn(poured);
  if (job.kind === 'part') return poured;
  return `${job.mould.pattern === null ? words.none : patterns[job.mould.pattern].name.toLowerCase()}, ${poured}`;
};

function All({ batch, onJob }: { readonly batch: BatchState; readonly onJob: (key: string) => void }) {
  const display = useDisplay();
  const [page, setPage] = useState(0);
  const jobs = allJobs(batch);
  const pages = Math.ceil(jobs.length / A_PAGE);
  const joined = batch.status === 'joined';
  return (
    <SheetFrame title={words.title} teach={words.teach}>
      <SheetGrid columns={3}>
        {jobs.slice(page * A_PAGE, (page + 1) * A_PAGE).map((job) => (
          <Press key={job.key} name={jobName(batch, job)} sub={pouredOf(batch, job, display)} onTap={() => onJob(job.key)} />
        ))}
        {pages > 1 ? <Press name={words.more} sub={`${page + 1} / ${pages}`} onTap={() => setPage((page + 1) % pages)} /> : null}
        {joined ? (
          <Press name={words.wrong} sub={words.wrongSub} onTap={() => send({ kind: 'stamp-trace', mark: 'wrong', note: '' })} />
        ) : (
          // Where moulds are planned this sheet stands in the place of the keypad, and lye and oils may have no probe.
          <Press name={sheetMessages.keypad.temperatureTitle} onTap={() => openSheet('keypad')} />
        )}
      </SheetGrid>
    </SheetFrame>
  );
}

interface OneProps {
  readonly batch: BatchState;
  readonly job: Job;
}

/** How one of them is weighed, or that it is typed; a mould's pattern, its jugs, and the photograph for later. */
function One({ batch, job }: OneProps) {
  const display = useDisplay();
  const [typing, setTyping] = useState(false);
  const [from, setFrom] = useState<readonly Source[]>(() => (job.kind === 'mould' ? usualSources(batch, job.mould) : []));
  const joined = batch.status === 'joined';
  const name = jobName(batch, job);
  if (typing) return <Amount name={name} way={wayOf(batch, job, from)} />;
  const begin = (by: 'gain' | 'loss', sources: readonly Source[] | null) => (): void =>
    send({ kind: 'pour-into', job: job.key, by, from: sources === null ? null : [...sources] });
  const last = lastOf(batch, job);
  return (
    <SheetFrame title={name} teach={words.how}>
      <SheetGrid columns={3}>
        <Press name={words.onScale} sub={words.onScaleSub} onTap={joined ? begin('gain', job.kind === 'mould' ? from : null) : undefined} />
        {job.kind === 'left'
          ? null
          : (job.kind === 'part' ? (['pot'] as const) : from).map((source) => (
              <Press
                key={`loss ${source}`}
                name={words.byLoss(sourceText(batch, source))}
                sub={words.byLossSub}
                onTap={joined ? begin('loss', [source]) : undefined}
              />
            ))}
        <Press name={pourWords.sheet.type} sub={words.typed} onTap={joined ? () => setTyping(true) : undefined} />
        {job.kind === 'mould' ? <OfMould batch={batch} job={job} from={from} onFrom={setFrom} /> : null}
        {last === null ? null : (
          <HoldPress
            name={words.strike}
            sub={massText(last.mass, display)}
            words={holdWords}
            onHeld={() => send({ kind: 'strike', entry: last.entry, reason: 'undone', note: '', held: true })}
          />
        )}
      </SheetGrid>
    </SheetFrame>
  );
}

const lastOf = ({ pour }: BatchState, job: Job) => {
  const all =
    job.kind === 'part'
      ? pour.parts.filter(({ id }) => id === job.part.id)
      : job.kind === 'left'
        ? pour.left.filter(({ of }) => of === job.source)
        : pour.pours.filter(({ mould }) => mould === job.mould.n);
  return standing<(typeof all)[number]>(all).at(-1) ?? null;
};

const wayOf = (batch: BatchState, job: Job, from: readonly Source[]): Way => {
  if (job.kind === 'part')
    return { name: words.typedPart, all: leftOver(batch), want: (mass) => ({ kind: 'type-part', part: job.part.id, mass }) };
  if (job.kind === 'left')
    return { name: words.leftBehind, all: hadIn(batch, job.source), want: (mass) => ({ kind: 'type-left', of: job.source, mass }) };
  return { name: words.typed, all: leftOver(batch), want: (mass) => ({ kind: 'type-mould', mould: job.mould.n, from: [...from], mass }) };
};

interface OfMouldProps {
  readonly batch: BatchState;
  readonly job: Extract<Job, { kind: 'mould' }>;
  readonly from: readonly Source[];
  readonly onFrom: (from: readonly Source[]) => void;
}

function OfMould({ batch, job: { mould }, from, onFrom }: OfMouldProps) {
  const sources = sourcesOf(batch);
  const joined = batch.joined !== null;
  const asked = batch.pour.photos.some((one) => one.mould === mould.n);
  const toggle = (source: Source) => (): void => {
    const next = sources.filter((one) => (one === source ? !from.includes(one) : from.includes(one)));
    if (next.length > 0) onFrom(next);
  };
  return (
    <>
      {sources.length < 2
        ? null
        : sources.map((source) => (
            <Press
              key={source}
              name={sourceText(batch, source)}
              sub={from.includes(source) ? words.sourcesSub.on : words.sourcesSub.off}
              current={from.includes(source)}
              onTap={toggle(source)}
            />
          ))}
      {joined && mould.pattern !== 'plain-pour' ? (
        <HoldPress
          name={words.plain}
          sub={words.plainSub}
          words={holdWords}
          onHeld={() => send({ kind: 'name-pattern', mould: mould.n, pattern: 'plain-pour' })}
        />
      ) : null}
      {joined ? (
        <Press
          name={words.photo}
          sub={asked ? words.photoAsked : undefined}
          onTap={asked ? undefined : () => send({ kind: 'ask-photo', of: 'top', mould: mould.n })}
        />
      ) : (
        <Patterns mould={mould} />
      )}
    </>
  );
}

/** Before joining another pattern can still be named. */
function Patterns({ mould }: { readonly mould: OfMouldProps['job']['mould'] }) {
  return (
    <>
      {Object.entries(patterns).map(([pattern, { name }]) => (
        <Press
          key={pattern}
          name={name}
          current={pattern === mould.pattern}
          onTap={() => send({ kind: 'name-pattern', mould: mould.n, pattern: pattern as keyof typeof patterns })}
        />
      ))}
    </>
  );
}
