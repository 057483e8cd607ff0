'use client';
import type { Route } from 'next';
import Link from 'next/link';
import type { BarsRow } from '#lib/protocol/bars';
import { shortDate } from '#lib/words/times';
import { useDisplay } from '../../_live/use';
import { on } from '../../_ui/classes';
import { Head } from '../../_ui/head';
import { PaperSection } from '../../_ui/section';
import { messages } from '../messages';
import { Ready } from './curing';
import { lotHref } from './stage';
import type { CureOf } from '../../_ui/cure/use-cure';

interface Props {
  readonly rows: readonly BarsRow[];
  readonly cureOf: CureOf;
  /** In the order the maker keeps them. */
  readonly places: readonly string[];
}

/** The shelf as somebody stands before it: what is where, since when, ready when. */
export function Places({ rows, cureOf, places: order }: Props) {
  const { locale } = useDisplay();
  const { places, curing, shelf } = messages;
  const there = rows.filter(({ cut, place }) => cut !== null || place !== null);
  if (there.every(({ place }) => place === null)) return null;
  const rank = (row: BarsRow): number => {
    const at = order.indexOf(row.place?.name ?? '');
    return row.place === null ? Number.MAX_SAFE_INTEGER : at < 0 ? order.length : at;
  };
  const sorted = there.toSorted((a, b) => rank(a) - rank(b) || (a.place?.name ?? '').localeCompare(b.place?.name ?? ''));
  return (
    <PaperSection name={places.title} note={<p>{places.note}</p>}>
      <table className={on('table')}>
        <caption className="unseen">{places.title}</caption>
        <thead>
          <tr>
            <Head name={curing.heads.place} />
            <Head name={curing.heads.lot} />
            <Head name={shelf.heads.since} wide />
            <Head name={shelf.heads.left} n />
            <Head name={curing.heads.ready} />
          </tr>
        </thead>
        <tbody>
          {sorted.map((row, at) => (
            <tr key={row.id}>
              <th scope="row">
                {/* Said once above its lots, and with each to who hears the table. */}
                <span className={at > 0 && sorted[at - 1]?.place?.name === row.place?.name ? 'unseen' : undefined}>
                  {row.place?.name ?? places.nowhere}
                </span>
              </th>
              <td>
                <Link href={lotHref(row.id) as Route} prefetch={false}>
                  <span className={on('mark')}>{`${row.mark} `}</span>
                  {row.formula.name}
                </Link>
              </td>
              <td className={on('wide')}>{row.place === null ? '' : shortDate(row.place.since, { offsetMin: null, locale })}</td>
              <td className={on('n')}>{row.cut === null ? '' : row.counts.shelf}</td>
              <td>
                <Ready cure={cureOf(row)} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </PaperSection>
  );
}
