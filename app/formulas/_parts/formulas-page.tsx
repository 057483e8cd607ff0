'use client';
import type { Route } from 'next';
import Link from 'next/link';
import { useRouter } from 'next/navigation';
import { useState } from 'react';
import type { ShelfItem } from '#lib/protocol/shelf';
import { CATALOGUE } from '#lib/work/formula/index';
import type { Formula, Part } from '#lib/work/formula/index';
import { see } from '../../_live/selectors';
import { useDisplay, useLive } from '../../_live/use';
import { Head } from '../../_ui/head';
import { PaperPage } from '../../_ui/paper';
import { Asking, ProblemSection } from '../../_ui/problem';
import { PaperSection, PaperTitle, Steps } from '../../_ui/section';
import { shelfApi } from '../../_ui/shelf-api';
import { dateText } from '#lib/words/times';
import { capital } from '#lib/words/words';
import { Away } from '../../_ui/kept/away';
import { SHARED_EVERY_MS, useAsked } from '../../_ui/use-asked';
import { on } from '../../_ui/classes';
import { messages } from '../messages';
import { FromFile, Samples } from './bring-in';
import { draftStore } from './draft-store';
import { freshFormula } from './fresh';

const sheetOf = (id: string): Route => `/formulas/sheet?id=${encodeURIComponent(id)}` as Route;

/** Every formula kept, those begun on this screen, and how another comes here. */
export function FormulasPage() {
  const { asked, again } = useAsked(() => shelfApi.list('formula'), { everyMs: SHARED_EVERY_MS });
  const practice = useLive(see.realm) === 'practice';
  const items = asked.state === 'there' ? asked.value.items : [];
  return (
    <PaperPage foot={messages.title}>
      <PaperTitle
        title={messages.title}
        lead={asked.state !== 'there' ? undefined : items.length === 0 ? messages.lead.none : messages.lead.some(items.length)}
      >
        {asked.state === 'asking' ? <Asking /> : null}
        <Fresh />
      </PaperTitle>
      {asked.state === 'failed' ? <ProblemSection problem={asked.problem} onAgain={again} /> : null}
      {asked.state === 'there' ? (
        <>
          {items.length === 0 ? <Empty /> : <Kept items={items} />}
          <Drafts items={items} />
          <Away noun="formula" items={asked.value.away} nameOf={nameOfFormula} onBack={again} />
          {practice ? <Samples onPut={again} /> : null}
          <FromFile onPut={again} />
        </>
      ) : null}
    </PaperPage>
  );
}

function Fresh() {
  const router = useRouter();
  const begin = async (): Promise<void> => {
    const answer = await shelfApi.workshop();
    const formula = freshFormula(answer.ok ? answer.value.habits : null);
    draftStore.write({ formula, base: 0 });
    router.push(sheetOf(formula.id));
  };
  return (
    <div className={on('acts')}>
      <button type="button" className={on('act first')} onClick={() => void begin()}>
        {messages.acts.fresh}
      </button>
    </div>
  );
}

function Kept({ items }: { readonly items: readonly ShelfItem[] }) {
  const { locale } = useDisplay();
  const { list } = messages;
  return (
    <PaperSection name={list.title} note={<p>{list.note}</p>}>
      <table className={on('table')}>
        <thead>
          <tr>
            <Head name={list.heads.name} />
            <Head name={list.heads.what} wide />
            <Head name={list.heads.version} n />
            <Head name={list.heads.when} n />
          </tr>
        </thead>
        <tbody>
          {items.map(({ id, version, wall, document }) => (
            <tr key={id}>
              <th scope="row">
                <Link href={sheetOf(id)} prefetch={false}>
                  {(document as unknown as Formula).name}
                </Link>
              </th>
              <td className={on('wide')}>{madeOf(document as unknown as Formula)}</td>
              <td className={on('n')}>{version}</td>
              <td className={on('n')}>{dateText(wall, { offsetMin: null, locale })}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </PaperSection>
  );
}

const nameOfFormula = (document: unknown): string => (document as Formula).name;

const NAMES = new Map(CATALOGUE.map(({ id, name }) => [id, name]));
/** What tells one formula from another at a glance: its oils, then what else is in it. */
const madeOf = ({ entries }: Formula): string => {
  const of = (...parts: readonly Part[]): readonly string[] =>
    entries.flatMap(({ part, material }) =>
      parts.includes(part) && material !== null ? (NAMES.get(material)?.split(',', 1) ?? messages.list.own) : [],
    );
  const scented = entries.some(({ part }) => part === 'fragrance');
  const text = [of('fat'), [...of('acid', 'extra'), ...(scented ? [messages.list.scented] : [])]]
    .filter((names) => names.length > 0)
    .map((names) => names.join(', '))
    .join('; ');
  return capital(text.toLowerCase());
};

/** What this screen holds and the workshop does not. */
function Drafts({ items }: { readonly items: readonly ShelfItem[] }) {
  const [all] = useState(() => draftStore.all());
  const { drafts } = messages;
  if (all.length === 0) return null;
  const nameOf = (formula: Formula): string => (formula.name === '' ? drafts.unnamed : formula.name);
  return (
    <PaperSection name={drafts.title} note={<p>{drafts.note}</p>}>
      <ol className={on('steps')}>
        {all.map(({ formula, base }) => (
          <li key={formula.id}>
            <Link href={sheetOf(formula.id)} prefetch={false}>
              {nameOf(formula)}
            </Link>
            <span className={on('dim')}>
              {base === 0 ? drafts.fresh : items.some(({ id }) => id === formula.id) ? drafts.changed(base) : drafts.away(base)}
            </span>
          </li>
        ))}
      </ol>
    </PaperSection>
  );
}

function Empty() {
  const { empty } = messages;
  return (
    <PaperSection name={empty.title}>
      <Steps steps={empty.steps} />
    </PaperSection>
  );
}
