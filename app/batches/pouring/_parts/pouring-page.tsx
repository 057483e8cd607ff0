'use client';
import Link from 'next/link';
import { useState } from 'react';
import type { HistoryPage } from '#lib/protocol/history';
import { numberText } from '#lib/units/format';
import { gainOf } from '#lib/work/history/gain';
import { shortDate } from '#lib/words/times';
import { useDisplay } from '../../../_live/use';
import { batchesApi } from '../../../_ui/batches-api';
import { on } from '../../../_ui/classes';
import { Choice } from '../../../_ui/fields';
import { PaperPage } from '../../../_ui/paper';
import { Asking, ProblemSection } from '../../../_ui/problem';
import { PaperTitle } from '../../../_ui/section';
import { useAsked } from '../../../_ui/use-asked';
import { messages } from '../messages';
import { LineSections } from './line-sections';
import { materialsIn, movedIn } from './model';
import { Stops } from './stops';
import { SuperfatSection, TimeSection } from './whole-batch';

const ALL = '';

/** How somebody's pours lie over many batches, and whether they have changed. */
export function PouringPage() {
  const [formula, setFormula] = useState<string>(ALL);
  const { asked, again } = useAsked(() => batchesApi.history(formula === ALL ? null : formula), { key: formula });
  const { asked: names } = useAsked(batchesApi.formulas);
  const formulas = names.state === 'there' ? names.value.formulas : [];
  const there = asked.state === 'there' ? asked.value : null;
  return (
    <PaperPage foot={messages.foot}>
      <PaperTitle
        title={messages.title}
        lead={there === null ? undefined : <Lead page={there} />}
        side={there === null ? null : <Side page={there} />}
      >
        {asked.state === 'asking' ? <Asking /> : null}
        <div className={on('form gap')}>
          <Choice
            id="formula"
            label={messages.choose.formula}
            value={formula}
            options={[[ALL, messages.choose.all], ...formulas.map((name) => [name, name] as const)]}
            onChange={setFormula}
          />
        </div>
        <div className={on('acts')}>
          <Link className={on('act')} href="/batches" prefetch={false}>
            {messages.act.list}
          </Link>
        </div>
      </PaperTitle>
      {asked.state === 'failed' ? <ProblemSection problem={asked.problem} onAgain={again} /> : null}
      {there === null || there.batches.length < FEWEST ? null : <Sections page={there} />}
    </PaperPage>
  );
}

const FEWEST = 3;

function Lead({ page: { batches } }: { readonly page: HistoryPage }) {
  const { locale } = useDisplay();
  const { lead } = messages;
  if (batches.length < FEWEST) return lead.few;
  const moved = movedIn(batches, materialsIn(batches)).map(({ material, by }) =>
    lead.line(material.toLowerCase(), numberText(Math.abs(by), locale, 2), by > 0),
  );
  const gain = gainOf(batches.flatMap(({ stops }) => stops));
  const percent = (part: number): string => `${numberText(100 * part, locale)} %`;
  const first = moved.length === 0 ? lead.steady(batches.length) : lead.moved(moved);
  return gain === null ? first : `${first} ${lead.gain(percent(gain.within), percent(gain.withoutWithin))}`;
}

function Side({ page: { batches, more } }: { readonly page: HistoryPage }) {
  const { locale } = useDisplay();
  const [first, last] = [batches[0], batches.at(-1)];
  if (first === undefined || last === undefined) return null;
  const day = (wall: number): string => shortDate(wall, { offsetMin: null, locale });
  return (
    <>
      <p>{messages.side(day(first.wall), day(last.wall))}</p>
      {more ? <p>{messages.older(batches.length)}</p> : null}
    </>
  );
}

function Sections({ page }: { readonly page: HistoryPage }) {
  return (
    <>
      <LineSections page={page} />
      <SuperfatSection page={page} />
      <Stops page={page} />
      <TimeSection page={page} />
    </>
  );
}
