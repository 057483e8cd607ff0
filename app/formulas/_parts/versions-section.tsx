'use client';
import { useRouter } from 'next/navigation';
import { useState } from 'react';
import type { ShelfDocument } from '#lib/protocol/shelf';
import { changesBetween } from '#lib/work/formula/index';
import type { Change, Formula } from '#lib/work/formula/index';
import { useDisplay } from '../../_live/use';
import { Choice } from '../../_ui/fields';
import { Head } from '../../_ui/head';
import { PaperSection } from '../../_ui/section';
import { shelfApi } from '../../_ui/shelf-api';
import { dateText } from '#lib/words/times';
import { useAsked } from '../../_ui/use-asked';
import { on } from '../classes';
import { messages } from '../messages-versions';
import type { Names } from '../messages-versions';
import { useSheet } from './use-sheet';

type Version = ShelfDocument['versions'][number];
const formulaOf = ({ document }: Version): Formula => document as unknown as Formula;

/** Every version kept, and what changed between two of them. */
export function VersionsSection() {
  const { draft } = useSheet();
  return draft.base === 0 ? null : <Kept />;
}

function Kept() {
  const { formula, draft, bringBack } = useSheet();
  const { locale } = useDisplay();
  const { asked } = useAsked(() => shelfApi.document('formula', formula.id), { key: formula.id, revision: draft.base });
  if (asked.state !== 'there') return null;
  const versions = asked.value.versions.filter(({ document }) => document !== null);
  const { heads } = messages;
  return (
    <PaperSection name={messages.title} note={<p>{messages.note}</p>}>
      <table className={on('table')}>
        <thead>
          <tr>
            <Head name={heads.version} />
            <Head name={heads.when} />
            <Head name={heads.why} />
            <Head name={messages.back} unseen />
          </tr>
        </thead>
        <tbody>
          {versions.toReversed().map((one) => {
            const { version, wall, note } = one;
            return (
              <tr key={version}>
                <th scope="row">{version}</th>
                <td>{dateText(wall, { offsetMin: null, locale })}</td>
                <td>{note}</td>
                <td className={on('n')}>
                  {version === draft.base ? null : (
                    <button
                      type="button"
                      className={on('link')}
                      aria-label={messages.bringBackSpoken(version)}
                      onClick={() => void bringBack(formulaOf(one), messages.broughtBack(version))}
                    >
                      {messages.bringBack}
                    </button>
                  )}
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
      {versions.length < 2 ? null : <Between key={versions.at(-1)?.version} versions={versions} />}
      <PutAway />
    </PaperSection>
  );
}

function Between({ versions }: { readonly versions: readonly Version[] }) {
  const { materials, workshop } = useSheet();
  const numbers = versions.map(({ version }) => [String(version), messages.version(version)] as const);
  const [from, setFrom] = useState(numbers.at(-2)?.[0] ?? '');
  const [to, setTo] = useState(numbers.at(-1)?.[0] ?? '');
  const find = (number: string): Version | undefined => versions.find(({ version }) => String(version) === number);
  const [before, after] = [find(from), find(to)];
  const changes = before === undefined || after === undefined ? [] : changesBetween(formulaOf(before), formulaOf(after));
  const all = [before, after].flatMap((one) => (one === undefined ? [] : formulaOf(one).entries));
  const blends = [before, after].flatMap((one) => (one === undefined ? [] : formulaOf(one).blends));
  const names: Names = {
    material: materials.nameOf,
    entry: (id) => materials.nameOf(all.find((one) => one.id === id)?.material ?? null) || id,
    mould: (id) => workshop.context.moulds.find((one) => one.id === id)?.name ?? id,
    blend: (id) => blends.findLast((one) => one.id === id)?.name ?? id,
    lot: (id) => workshop.context.lots.find((one) => one.id === id)?.mark ?? id,
  };
  const { heads } = messages;
  return (
    <>
      <div className={on('form gap')}>
        <Choice id="from" label={messages.from} value={from} options={numbers} onChange={setFrom} />
        <Choice id="to" label={messages.to} value={to} options={numbers} onChange={setTo} />
      </div>
      {changes.length === 0 ? (
        <p>{messages.same}</p>
      ) : (
        <table className={on('table gap')}>
          <thead>
            <tr>
              <Head name={heads.what} />
              <Head name={heads.before} />
              <Head name={heads.after} />
            </tr>
          </thead>
          <tbody>
            {changes.map((one: Change) => (
              <tr key={one.path}>
                <th scope="row">{messages.place(one.path, names)}</th>
                <td>{messages.value(one.path, one.before, names)}</td>
                <td>{messages.value(one.path, one.after, names)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </>
  );
}

function PutAway() {
  const { putAway, dirty, held } = useSheet();
  const router = useRouter();
  const put = async (): Promise<void> => {
    if (await putAway()) router.push('/formulas');
  };
  return (
    <>
      <div className={on('acts gap')}>
        <button type="button" className={on('act')} disabled={dirty && !held} onClick={() => void put()}>
          {messages.putAway}
        </button>
      </div>
      <p className={on('dim gap')}>{messages.putAwayNote}</p>
      {dirty ? <p className={on('dim')}>{held ? messages.putAwayTyped : messages.putAwayLoses}</p> : null}
    </>
  );
}
