'use client';
import type { Route } from 'next';
import Link from 'next/link';
import { useSearchParams } from 'next/navigation';
import { useState } from 'react';
import type { LabelPage as Told } from '#lib/protocol/label';
import type { Answer } from '../../../_ui/api';
import { on } from '../../../_ui/classes';
import { SingleDocument } from '../../../_ui/kept/single';
import { labelApi } from '../../../_ui/label-api';
import { PaperPage } from '../../../_ui/paper';
import { Asking, ProblemSection } from '../../../_ui/problem';
import { PaperTitle } from '../../../_ui/section';
import { SHARED_EVERY_MS, useAsked } from '../../../_ui/use-asked';
import { messages } from '../messages';
import { Allergens } from './allergens';
import { Checks } from './checks';
import { Ingredients } from './ingredients';
import { Preview } from './preview';
import { settingsOf } from './settings';

const NO_ID: Answer<Told> = { ok: false, problem: messages.noId, status: 404 };

/** The label of one bar lot: what it says, what that rests on, and what is missing. */
export function LabelPage() {
  const id = useSearchParams().get('id') ?? '';
  const [revision, setRevision] = useState(0);
  const { asked, again } = useAsked(() => (id === '' ? Promise.resolve(NO_ID) : labelApi.label(id)), {
    key: id,
    revision,
    everyMs: id === '' ? null : SHARED_EVERY_MS,
  });
  if (asked.state === 'there') return <Label label={asked.value} onKept={() => setRevision((before) => before + 1)} />;
  return (
    <PaperPage>
      <PaperTitle title={messages.title}>{asked.state === 'asking' ? <Asking /> : null}</PaperTitle>
      {asked.state === 'failed' ? <ProblemSection problem={asked.problem} onAgain={id === '' ? undefined : again} /> : null}
    </PaperPage>
  );
}

function Label({ label, onKept }: { readonly label: Told; readonly onKept: () => void }) {
  const { lead } = messages;
  const count = (state: string): number => label.eu.filter((one) => one.state === state).length;
  const [missing, look] = [count('missing'), count('look')];
  const words = [missing > 0 ? lead.missing(missing) : look > 0 ? lead.look(look) : lead.all, lead.local].join(' ');
  const query = encodeURIComponent(label.id);
  return (
    <PaperPage foot={`${messages.title} ${label.mark}`}>
      <PaperTitle title={messages.titleOf(label.formula)} lead={words} side={<p className={on('id')}>{label.mark}</p>}>
        <div className={on('acts')}>
          <Link className={on('act')} href={`/bars/lot?id=${query}` as Route} prefetch={false}>
            {messages.back}
          </Link>
          <Link className={on('act')} href={`/bars/net?id=${query}` as Route} prefetch={false}>
            {messages.net}
          </Link>
        </div>
      </PaperTitle>
      <Preview label={label} />
      <Ingredients label={label} />
      <Allergens label={label} />
      <Checks label={label} />
      <SingleDocument single={settingsOf(label, onKept)} />
    </PaperPage>
  );
}
