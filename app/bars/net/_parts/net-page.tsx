'use client';
import type { Route } from 'next';
import Link from 'next/link';
import { useSearchParams } from 'next/navigation';
import { useMemo, useState } from 'react';
import type { BarsPage } from '#lib/protocol/bars';
import { checkByAverage, checkByHandbook, LEAST_NOMINAL, MOST_NOMINAL } from '#lib/soap/net/index';
import { daysBetween } from '#lib/work/bars/cure';
import { inspected, massWeighed, netWeightsOf } from '#lib/work/bars/net-weights';
import type { Answer } from '../../../_ui/api';
import { barsApi } from '../../../_ui/bars-api';
import { on } from '../../../_ui/classes';
import { useBars } from '../../../_ui/cure/use-bars';
import { useCure } from '../../../_ui/cure/use-cure';
import { TextField } from '../../../_ui/fields';
import { PaperPage } from '../../../_ui/paper';
import { Asking, Problem, ProblemSection } from '../../../_ui/problem';
import { PaperSection, PaperTitle } from '../../../_ui/section';
import { SHARED_EVERY_MS, useAsked } from '../../../_ui/use-asked';
import { useNow } from '../../../_ui/use-now';
import type { LotProps } from '../../_parts/lot-props';
import { useWant } from '../../_parts/use-want';
import { messages } from '../messages';
import { CarriesSection } from './carries';
import { scaleChecked, ScaleFirst } from './scale-first';
import { Average, Handbook } from './steps';
import { figureOf, heldChecks, startOf, type NetTyped } from './typed';
import { NetWeights } from './weights';

const NO_ID: Answer<BarsPage> = { ok: false, problem: messages.noId, status: 404 };

/** Whether one bar lot may bear its label: the scale, each rule step by step, and what it could say instead. */
export function NetPage() {
  const id = useSearchParams().get('id') ?? '';
  const { asked, again } = useAsked(() => (id === '' ? Promise.resolve(NO_ID) : barsApi.lot(id)), {
    key: id,
    everyMs: id === '' ? null : SHARED_EVERY_MS,
  });
  if (asked.state === 'there') return <Net key={id} page={asked.value} again={again} />;
  return (
    <PaperPage>
      <PaperTitle title={messages.title}>{asked.state === 'asking' ? <Asking /> : null}</PaperTitle>
      {asked.state === 'failed' ? <ProblemSection problem={asked.problem} onAgain={id === '' ? undefined : again} /> : null}
    </PaperPage>
  );
}

const GRAM = 1000;
const isNominal = (value: number | null): value is number => value !== null && value >= LEAST_NOMINAL && value <= MOST_NOMINAL;

function Net({ page, again }: LotProps) {
  const { state, row } = page;
  const wanting = useWant(row, again);
  const [typed, setTyped] = useState<NetTyped>(() => startOf(row.id));
  const onTyped = (change: Partial<NetTyped>): void => {
    const next = { ...typed, ...change };
    heldChecks.write(row.id, next);
    setTyped(next);
  };
  const { weights, step } = netWeightsOf(state);
  const cure = useCureOf(row);
  const lot = inspected(state);
  const [nominal, size] = [figureOf(typed.nominal) ?? labelled(state.label), figureOf(typed.size) ?? lot];
  const sized = Number.isInteger(size) && size > 0 && size >= weights.length;
  const sample = isNominal(nominal) && sized ? { nominal, weights, lot: size } : null;
  const average = sample === null ? null : checkByAverage(sample);
  const mass = massWeighed(state);
  const scale = isNominal(nominal) ? scaleChecked(typed, step, nominal, mass) : null;
  const query = encodeURIComponent(row.id);
  const { lot: words, lead } = messages;
  return (
    <PaperPage foot={`${messages.title} ${row.mark}`}>
      <PaperTitle
        title={messages.titleOf(row.formula.name)}
        lead={[
          average === null ? lead.none : lead[average.verdict],
          scale === null ? '' : lead.scale[scale.average.verdict],
          lead.local,
        ].join(' ')}
        side={<p className={on('id')}>{row.mark}</p>}
      >
        <div className={on('acts')}>
          <Link className={on('act')} href={`/bars/lot?id=${query}` as Route} prefetch={false}>
            {messages.back}
          </Link>
          <Link className={on('act')} href={`/bars/label?id=${query}` as Route} prefetch={false}>
            {messages.label}
          </Link>
          {row.cut === null ? null : (
            <Link className={on('act')} href={`/bench/bars?id=${query}` as Route} prefetch={false}>
              {messages.weigh}
            </Link>
          )}
        </div>
      </PaperTitle>
      <PaperSection name={words.title} note={<p>{words.note}</p>}>
        {row.cut === null ? <p>{messages.noCut}</p> : null}
        <div className={on('form')}>
          <TextField
            id="net-nominal"
            label={words.nominal}
            numeric
            value={typed.nominal}
            hint={state.label === null ? '' : String(state.label / GRAM)}
            error={nominal === null || isNominal(nominal) ? '' : words.wrong.label}
            onChange={(value) => onTyped({ nominal: value })}
          />
          <TextField
            id="net-size"
            label={words.size}
            numeric
            value={typed.size}
            hint={String(lot)}
            error={sized || row.cut === null ? '' : words.wrong.size}
            onChange={(value) => onTyped({ size: value })}
          />
        </div>
        <p className={on('gap')}>{words.weighed(weights.length, size)}</p>
        {row.cut === null ? null : <NetWeights state={state} wanting={wanting} size={size} />}
        {wanting.problem === null ? null : <Problem problem={wanting.problem} />}
      </PaperSection>
      {scale === null || !isNominal(nominal) ? null : (
        <ScaleFirst {...{ id: row.id, check: scale, step, nominal, weighed: mass, typed, onTyped, wanting }} />
      )}
      {average === null || sample === null ? null : <Average check={average} nominal={sample.nominal} />}
      {sample === null ? null : <Handbook check={checkByHandbook(sample)} nominal={sample.nominal} />}
      {sized ? <CarriesSection weights={weights} lot={size} typed={typed} onTyped={onTyped} cure={cure} /> : null}
    </PaperPage>
  );
}

const labelled = (label: number | null): number | null => (label === null ? null : label / GRAM);

const HOUR_MS = 3_600_000;

/** What is forecast of these bars' weight, and the day it is since they were cut; `null` while nothing is known. */
const useCureOf = (row: BarsPage['row']) => {
  const { there } = useBars();
  const now = useNow();
  const hour = now === null ? null : now - (now % HOUR_MS);
  const text = JSON.stringify(row);
  const rows = useMemo(() => [JSON.parse(text) as BarsPage['row']], [text]);
  const cure = useCure(rows, there?.all ?? NONE, there?.rule ?? null, hour)(row);
  if (typeof cure === 'string' || cure.forecast == null || hour === null) return null;
  return { forecast: cure.forecast, today: Math.max(0, daysBetween(cure.followed.from, hour)) };
};

const NONE: readonly BarsPage['row'][] = [];
