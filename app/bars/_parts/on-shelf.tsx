'use client';
import type { Route } from 'next';
import Link from 'next/link';
import type { BarsRow } from '#lib/protocol/bars';
import { massCell, massHead } from '#lib/words/quantities';
import { useDisplay } from '../../_live/use';
import { on } from '../../_ui/classes';
import { Blank, Digits } from '../../_ui/figures';
import { Head } from '../../_ui/head';
import { PaperSection } from '../../_ui/section';
import { messages } from '../messages';
import { BarMarks } from './bar-marks';
import { lotHref } from './stage';

/** Bars that are ready, with what is left of each lot. */
export function OnShelf({ rows }: { readonly rows: readonly BarsRow[] }) {
  const display = useDisplay();
  const { shelf } = messages;
  const { heads } = shelf;
  return (
    <PaperSection name={shelf.title} note={<p>{shelf.note}</p>}>
      <table className={on('table')}>
        <caption className="unseen">{shelf.title}</caption>
        <thead>
          <tr>
            <Head name={heads.lot} />
            <Head name={heads.label} unit={massHead(display)} n wide />
            <Head name={heads.place} wide />
            <Head name={heads.bars} wide />
            <Head name={heads.left} n />
            <Head name={heads.made} n />
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.id} data-lot={row.id}>
              <th scope="row">
                <Link href={lotHref(row.id) as Route} prefetch={false}>
                  <span className={on('mark')}>{`${row.mark} `}</span>
                  {row.formula.name}
                </Link>
                {row.held === null ? null : <b className={on('warn')}> {shelf.held}</b>}
                {row.counts.away === 0 ? null : <small> {shelf.away(row.counts.away)}</small>}
              </th>
              {row.label === null ? (
                <Blank className={on('n wide')} />
              ) : (
                <td className={on('n wide')}>
                  <Digits cell={massCell(row.label, null, display, 0)} />
                </td>
              )}
              <td className={on('wide')}>{row.place?.name ?? ''}</td>
              <td className={on('wide')}>
                <BarMarks left={row.counts.shelf} made={row.counts.made} label={shelf.left(row.counts.shelf, row.counts.made)} />
              </td>
              <td className={on('n')}>
                <b>{row.counts.shelf}</b>
              </td>
              <td className={on('n')}>{row.counts.made}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </PaperSection>
  );
}
