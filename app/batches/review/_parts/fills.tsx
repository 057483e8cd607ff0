'use client';
import { useState } from 'react';
import type { BatchPage } from '#lib/protocol/http';
import type { HttpProblem } from '#lib/protocol/http';
import { numberText } from '#lib/units/format';
import { calibrationFrom, checkFill, mouldVolume } from '#lib/work/formula/index';
import type { Fill, FilledMould, Formula, Mould, Problem as Wrong } from '#lib/work/formula/index';
import { useDisplay } from '../../../_live/use';
import type { Answer } from '../../../_ui/api';
import { TextField } from '../../../_ui/fields';
import { Problem } from '../../../_ui/problem';
import { problemText } from '../../../_ui/problem-messages';
import { PaperSection } from '../../../_ui/section';
import { shelfApi } from '../../../_ui/shelf-api';
import { useAsked } from '../../../_ui/use-asked';
import { messages } from '../messages-fills';
import { on } from './classes';

interface Before {
  readonly version: number;
  readonly fill: Fill;
}

const NOT_THERE = 404;

/** What was kept of this batch's moulds, or the moulds its formula poured into with nothing said yet. */
const askFill = async (review: BatchPage): Promise<Answer<Before>> => {
  const { summary, formula, sizing } = review;
  const kept = await shelfApi.document('fill', summary.id);
  const last = kept.ok ? kept.value.versions.at(-1) : undefined;
  if (!kept.ok && kept.status !== NOT_THERE) return kept;
  if (last !== undefined && last.document !== null)
    return { ok: true, value: { version: last.version, fill: last.document as unknown as Fill } };
  const [there, workshop] = await Promise.all([shelfApi.document('formula', formula.id), shelfApi.workshop()]);
  if (!there.ok) return there;
  if (!workshop.ok) return workshop;
  const poured = there.value.versions.find(({ version }) => version === formula.version)?.document as unknown as Formula | null;
  const fill: Fill = {
    id: summary.id,
    mark: summary.mark,
    computed: { volume: sizing?.volume ?? '', grams: sizing?.grams ?? '' },
    residue: sizing?.residue ?? '',
    pourLoss: String(100 * Number(sizing?.pourLoss ?? 0)),
    moulds: (poured?.moulds ?? []).flatMap(({ mould, count }) => filledOf(workshop.value.context.moulds, mould, count)),
  };
  return { ok: true, value: { version: last?.version ?? 0, fill } };
};

const filledOf = (moulds: readonly Mould[], id: string, count: number): readonly FilledMould[] => {
  const mould = moulds.find((one) => one.id === id);
  const volume = mould === undefined ? null : mouldVolume(mould);
  return mould === undefined || volume === null
    ? []
    : [{ mould: id, name: mould.name, count, brim: volume.value.toFixed(2), full: '', grams: null }];
};

/** How full the moulds of a closed batch really got: asked of who poured, and what it teaches. */
export function Fills({ review }: { readonly review: BatchPage }) {
  const { summary, sizing } = review;
  const wanted = summary.status === 'closed' && sizing !== null;
  return wanted ? <Asked review={review} /> : null;
}

function Asked({ review }: { readonly review: BatchPage }) {
  const { asked } = useAsked(() => askFill(review), { key: review.summary.id });
  if (asked.state !== 'there') return null;
  return (
    <PaperSection name={messages.title} note={<p>{messages.note}</p>}>
      {asked.value.fill.moulds.length === 0 ? <p>{messages.noMoulds}</p> : <Form before={asked.value} />}
    </PaperSection>
  );
}

/** What is wrong beside a field; the whole is off where the figures fit no batter. */
const wordsAt = (problems: readonly Wrong[], path: string): string =>
  problems.flatMap((one) => (one.path === path ? [problemText(one)] : [])).join(' ');

function Form({ before }: { readonly before: Before }) {
  const { locale } = useDisplay();
  const [base, setBase] = useState(before.version);
  const [fill, setFill] = useState(before.fill);
  const [tried, setTried] = useState(false);
  const [said, setSaid] = useState('');
  const [problem, setProblem] = useState<HttpProblem | null>(null);
  const problems = checkFill(fill);
  const factor = calibrationFrom([fill])?.factor ?? null;
  const number = (value: unknown): string => numberText(Number(value), locale, 3);
  const off = problems.find(({ code, path }) => code === 'out-of-range' && path === 'moulds');
  const put = (at: number, change: Partial<FilledMould>): void => {
    setSaid('');
    setFill({ ...fill, moulds: fill.moulds.map((one, index) => (index === at ? { ...one, ...change } : one)) });
  };
  const keep = async (): Promise<void> => {
    setTried(true);
    if (factor === null) return;
    const answer = await shelfApi.put('fill', fill.id, base, fill);
    setProblem(answer.ok ? null : answer.problem);
    if (!answer.ok) return;
    setBase(answer.value.version);
    setSaid(messages.kept);
  };
  const wrong = (path: string, text: string): string => (tried || text !== '' ? wordsAt(problems, path) : '');
  return (
    <>
      {fill.moulds.map(({ mould, name, count, full, grams }, at) => (
        // One mould may stand in two rows.
        // oxlint-disable-next-line react/no-array-index-key
        <div key={`${mould} ${at}`} className={on('form gap')} data-fill={mould}>
          <TextField
            id={`fill-${at}`}
            label={messages.field.full(messages.mould(count, name))}
            value={full}
            numeric
            error={wrong(`moulds[${at}].full`, full)}
            onChange={(text) => put(at, { full: text })}
          />
          <TextField
            id={`fill-${at}-grams`}
            label={messages.field.grams}
            hint={messages.optional}
            value={grams ?? ''}
            numeric
            error={wrong(`moulds[${at}].grams`, grams ?? '')}
            onChange={(text) => put(at, { grams: text === '' ? null : text })}
          />
        </div>
      ))}
      {off === undefined ? null : (
        <p className={on('warn')}>{messages.off(number(off.params['value']), number(off.params['low']), number(off.params['high']))}</p>
      )}
      <p className={on('dim gap')}>{messages.why}</p>
      <div className={on('acts')}>
        <button type="button" className={on('act')} onClick={() => void keep()}>
          {messages.keep}
        </button>
      </div>
      <p>
        <output>{[said, ...(factor === null ? [] : [messages.says(number(factor))])].join(' ')}</output>
      </p>
      {problem === null ? null : <Problem problem={problem} />}
    </>
  );
}
