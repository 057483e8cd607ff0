'use client';
import { useState } from 'react';
import type { HttpProblem } from '#lib/protocol/http';
import type { ShelfItem } from '#lib/protocol/shelf';
import type { Noun } from '#lib/work/shelf/shelf';
import { useDisplay } from '../../_live/use';
import { on } from '../classes';
import { Head } from '../head';
import { Problem } from '../problem';
import { shelfApi } from '../shelf-api';
import { dateText } from '#lib/words/times';
import { keptMessages } from './messages';

interface Props {
  readonly noun: Noun;
  /** As each last stood; `version` is that of its putting away. */
  readonly items: readonly ShelfItem[];
  readonly nameOf: (document: unknown) => string;
  readonly onBack: () => void;
}

/** What was put away of one kind, with the way back: another version, like the last that stood. */
export function Away({ noun, items, nameOf, onBack }: Props) {
  const [open, setOpen] = useState(false);
  const [problem, setProblem] = useState<HttpProblem | null>(null);
  const { locale } = useDisplay();
  const { awayList: words } = keptMessages;
  if (items.length === 0) return null;
  const takeOut = async ({ id, version, document }: ShelfItem): Promise<void> => {
    const answer = await shelfApi.put(noun, id, version, document as object);
    setProblem(answer.ok ? null : answer.problem);
    onBack();
  };
  return (
    <div className={on('gap')}>
      <p>
        <button type="button" className={on('link')} aria-expanded={open} onClick={() => setOpen(!open)}>
          {open ? words.hide : words.show(items.length)}
        </button>
      </p>
      {open ? (
        <table className={on('table')}>
          <caption className="unseen">{words.caption}</caption>
          <thead>
            <tr>
              <Head name={words.heads.name} />
              <Head name={words.heads.when} wide />
              <Head name={words.heads.back} unseen />
            </tr>
          </thead>
          <tbody>
            {items.map((item) => (
              <tr key={item.id} data-away={item.id}>
                <th scope="row">{nameOf(item.document)}</th>
                <td className={on('wide')}>{dateText(item.wall, { offsetMin: null, locale })}</td>
                <td className={on('n')}>
                  <button type="button" className={on('link')} onClick={() => void takeOut(item)}>
                    {keptMessages.back}
                  </button>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      ) : null}
      {problem === null ? null : <Problem problem={problem} />}
    </div>
  );
}
