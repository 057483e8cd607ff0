'use client';
import type { Noun } from '#lib/work/shelf/shelf';
import { useDisplay } from '../../_live/use';
import { on } from '../classes';
import { Head } from '../head';
import { Asking, Problem } from '../problem';
import { shelfApi } from '../shelf-api';
import { dateText } from '#lib/words/times';
import { useAsked } from '../use-asked';
import { keptMessages } from './messages';

interface Props<D> {
  readonly noun: Noun;
  readonly id: string;
  /** The newest. */
  readonly version: number;
  readonly saidOf: (document: D) => string;
  /** Puts an earlier one above the newest. */
  readonly onBack: (earlier: object, version: number) => void;
}

/** Every version of one document, newest first. Nothing is ever overwritten. */
export function Versions<D>({ noun, id, version, saidOf, onBack }: Props<D>) {
  const { asked, again } = useAsked(() => shelfApi.document(noun, id), { key: `${noun} ${id}`, revision: version });
  const { locale } = useDisplay();
  const { versions: words } = keptMessages;
  if (asked.state === 'asking') return <Asking />;
  if (asked.state === 'failed') return <Problem problem={asked.problem} onAgain={again} />;
  return (
    <table className={on('table')}>
      <caption className="unseen">{words.caption}</caption>
      <thead>
        <tr>
          <Head name={words.heads.version} n />
          <Head name={words.heads.when} />
          <Head name={words.heads.what} />
          <Head name={words.heads.why} wide />
          <Head name={words.heads.back} unseen />
        </tr>
      </thead>
      <tbody>
        {asked.value.versions.toReversed().map((one) => (
          <tr key={one.version}>
            <td className={on('n')}>{one.version}</td>
            <td className={on('nw')}>{dateText(one.wall, { offsetMin: null, locale })}</td>
            <td>{one.document === null ? words.away : saidOf(one.document as unknown as D)}</td>
            <td className={on('wide')}>{one.note}</td>
            <td className={on('n')}>
              {one.document === null || one.version === version ? null : (
                <button
                  type="button"
                  className={on('link')}
                  aria-label={keptMessages.bringBackSpoken(one.version)}
                  onClick={() => onBack(one.document as object, one.version)}
                >
                  {keptMessages.bringBack}
                </button>
              )}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
