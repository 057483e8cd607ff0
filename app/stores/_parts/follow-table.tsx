'use client';
import type { Route } from 'next';
import Link from 'next/link';
import { massText } from '#lib/units/format';
import type { Display } from '#lib/units/display';
import type { FollowedBars, FollowedBatch, FollowedGone } from '#lib/protocol/lots';
import { shortDate } from '#lib/words/times';
import { useDisplay } from '../../_live/use';
import { on } from '../../_ui/classes';
import { Head } from '../../_ui/head';
import { followMessages as words } from '../messages-follow';

/** Who has it, in words: a name while there is one, else the id that stands in the record. */
const toWhom = ({ to, name, at }: FollowedGone): string => {
  const who = name ?? (to === null ? null : words.erased(to));
  return [who, at].filter((one) => one !== null).join(', ') || words.unknown;
};

export const goneText = (gone: FollowedGone, { locale }: Display): string =>
  words.gone[gone.kind](gone.count, toWhom(gone), shortDate(gone.wall, { offsetMin: gone.offsetMin, locale }));

const barsText = (bars: FollowedBars | null): string => (bars === null ? words.noBars : `${bars.mark} (${bars.made})`);

/** Batches, their bars, and where each of them is. */
export function FollowTable({ batches, masses = true }: { readonly batches: readonly FollowedBatch[]; readonly masses?: boolean }) {
  const display = useDisplay();
  const { heads } = words;
  return (
    <table className={on('table gap')}>
      <caption className="unseen">{words.caption}</caption>
      <thead>
        <tr>
          <Head name={heads.batch} />
          <Head name={heads.made} wide />
          {masses ? <Head name={heads.mass} n /> : null}
          <Head name={heads.bars} wide />
          <Head name={heads.where} />
        </tr>
      </thead>
      <tbody>
        {batches.flatMap(({ batch, mass, bars }) =>
          (bars.length === 0 ? [null] : bars).map((one, at) => (
            <tr key={`${batch.id} ${one?.id ?? ''}`} data-followed={one?.mark ?? batch.mark}>
              {at > 0 ? (
                <td>{null}</td>
              ) : (
                <th scope="row">
                  <Link href={`/batches/review?id=${encodeURIComponent(batch.id)}` as Route} prefetch={false}>
                    <span className={on('mark')}>{`${batch.mark} `}</span>
                    {batch.name}
                  </Link>
                </th>
              )}
              <td className={on('wide')}>{at === 0 ? shortDate(batch.startedWall, { offsetMin: null, locale: display.locale }) : ''}</td>
              {masses ? <td className={on('n')}>{at === 0 ? massText(mass, display, null) : ''}</td> : null}
              <td className={on('nw wide')}>{barsText(one)}</td>
              <td>
                <b className={on('narrow')}>{barsText(one)}</b>
                {one === null ? null : <Where bars={one} display={display} />}
              </td>
            </tr>
          )),
        )}
      </tbody>
    </table>
  );
}

/** Batches whose record named the lot first: told, and not counted. */
export function OnceNamed({ mark, batches }: { readonly mark: string; readonly batches: readonly FollowedBatch[] }) {
  if (batches.length === 0) return null;
  return (
    <>
      <p className={on('warn gap')}>{words.once(mark)}</p>
      <FollowTable batches={batches} masses={false} />
    </>
  );
}

function Where({ bars, display }: { readonly bars: FollowedBars; readonly display: Display }) {
  const lines = [
    ...(bars.shelf === 0 ? [] : [words.shelf(bars.shelf, bars.place)]),
    ...(bars.away === 0 ? [] : [words.away(bars.away)]),
    ...(bars.aside === 0 ? [] : [words.aside(bars.aside)]),
    ...(bars.retained === 0 ? [] : [words.retained(bars.retained, bars.place)]),
    ...bars.gone.map((gone) => goneText(gone, display)),
  ];
  return (
    <>
      {bars.held === null ? null : <b>{words.held(bars.held)}</b>}
      {lines.map((line, at) => (
        // Two sales on one day to one shop read alike.
        // oxlint-disable-next-line react/no-array-index-key
        <div key={`${at} ${line}`}>{line}</div>
      ))}
    </>
  );
}
