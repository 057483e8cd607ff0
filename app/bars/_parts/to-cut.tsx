'use client';
import type { Route } from 'next';
import Link from 'next/link';
import type { BarsRow } from '#lib/protocol/bars';
import { shortMoment } from '#lib/words/times';
import { useDisplay } from '../../_live/use';
import { on } from '../../_ui/classes';
import type { BarsThere } from '../../_ui/cure/use-bars';
import { PaperSection } from '../../_ui/section';
import { messages } from '../messages';
import { Latest } from './latest';
import { lotHref } from './stage';

/** Logs that are out and whole. Salt and wax want to be cut in time. */
export function ToCut({ rows, there }: { readonly rows: readonly BarsRow[]; readonly there: BarsThere }) {
  const { locale } = useDisplay();
  const { cut } = messages;
  return (
    <PaperSection name={cut.title} note={<p>{cut.note}</p>}>
      {rows.map((row) => (
        <div key={row.id} className={on('gap')} data-lot={row.id}>
          <h3>
            {row.formula.name} <span className={on('mark')}>{row.mark}</span>
          </h3>
          <p>{row.unmould === null ? null : cut.out(shortMoment(row.unmould.wall, { offsetMin: null, locale }))}</p>
          <Latest row={row} there={there} />
          <div className={on('acts')}>
            <Link className={on('act first')} href={`${lotHref(row.id)}#cut` as Route} prefetch={false}>
              {cut.act}
            </Link>
          </div>
        </div>
      ))}
    </PaperSection>
  );
}
