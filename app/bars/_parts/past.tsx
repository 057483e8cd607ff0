'use client';
import type { Route } from 'next';
import Link from 'next/link';
import { useState } from 'react';
import type { BarsRow } from '#lib/protocol/bars';
import { on } from '../../_ui/classes';
import { Head } from '../../_ui/head';
import { PaperSection } from '../../_ui/section';
import { messages } from '../messages';
import { lotHref } from './stage';

/** Lots of which no bar is left, for the asking. */
export function Past({ rows }: { readonly rows: readonly BarsRow[] }) {
  const [open, setOpen] = useState(false);
  const { past } = messages;
  const { heads } = past;
  const gone = rows.filter(({ cut, counts }) => cut !== null && counts.shelf + counts.away + counts.aside === 0);
  if (gone.length === 0) return null;
  return (
    <PaperSection name={past.title} note={<p>{past.note}</p>}>
      {open ? (
        <table className={on('table')}>
          <caption className="unseen">{past.title}</caption>
          <thead>
            <tr>
              <Head name={heads.lot} />
              <Head name={heads.made} n />
              <Head name={heads.sold} n />
              <Head name={heads.given} n />
              <Head name={heads.spoiled} n />
            </tr>
          </thead>
          <tbody>
            {gone.map((row) => (
              <tr key={row.id}>
                <th scope="row">
                  <Link href={lotHref(row.id) as Route} prefetch={false}>
                    <span className={on('mark')}>{`${row.mark} `}</span>
                    {row.formula.name}
                  </Link>
                </th>
                <td className={on('n')}>{row.counts.made}</td>
                <td className={on('n')}>{row.counts.sold}</td>
                <td className={on('n')}>{row.counts.given}</td>
                <td className={on('n')}>{row.counts.spoiled}</td>
              </tr>
            ))}
          </tbody>
        </table>
      ) : (
        <button type="button" className={on('link')} onClick={() => setOpen(true)}>
          {past.show}
        </button>
      )}
    </PaperSection>
  );
}
