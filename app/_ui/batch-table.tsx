'use client';
import type { Route } from 'next';
import Link from 'next/link';
import type { BatchListRow } from '#lib/protocol/http';
import { useDisplay } from '../_live/use';
import { Head } from './head';
import { batchMessages as messages } from '#lib/words/batch-messages';
import { Pad } from './figures';
import { massCell, massHead, placesOf } from '#lib/words/quantities';
import type { Cell } from '#lib/words/quantities';
import { shortDate } from '#lib/words/times';
import { on } from './classes';

/** Batches as rows, each opening its review. Counts that are not zero are what to look at first. */
export function BatchTable({ rows }: { readonly rows: readonly BatchListRow[] }) {
  const display = useDisplay();
  const { heads } = messages;
  const unit = massHead(display);
  const places = placesOf([null], display);
  return (
    <table className={on('table')}>
      <caption className="unseen">{messages.caption}</caption>
      <thead>
        <tr>
          <Head name={heads.batch} />
          <Head name={heads.made} />
          <Head name={heads.status} />
          <Head name={heads.lines} n wide />
          <Head name={heads.planned} unit={unit} n wide />
          <Head name={heads.actual} unit={unit} n />
          <Head name={heads.overPours} n wide />
          <Head name={heads.overrides} n wide />
          <Head name={heads.byHand} n wide />
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={row.id} data-batch={row.id}>
            <th scope="row">
              <Link href={reviewOf(row)} prefetch={false}>
                <span className={on('mark')}>{`${row.mark} `}</span>
                {row.name}
              </Link>
              <small className={on('narrow')}>{messages.departures(row)}</small>
            </th>
            <td className={on('nw')}>{shortDate(row.startedWall, { offsetMin: null, locale: display.locale })}</td>
            <td>{messages.status[row.status]}</td>
            <td className={on('n wide')}>{messages.linesOf(row.lines.closed, row.lines.of)}</td>
            <td className={on('n wide')}>
              <Sum row={row} cell={massCell(row.planned, null, display, places)} />
            </td>
            <td className={on('n')}>
              <Sum row={row} cell={massCell(row.actual, null, display, places)} />
            </td>
            <Tally count={row.overPours} />
            <Tally count={row.overrides} />
            <Tally count={row.byHand} />
          </tr>
        ))}
      </tbody>
    </table>
  );
}

const reviewOf = ({ id }: BatchListRow): Route => `/batches/review?id=${encodeURIComponent(id)}` as Route;

/** A sum over the batch's lines; its workings are its review. */
function Sum({ row, cell }: { readonly row: BatchListRow; readonly cell: Cell }) {
  return (
    <>
      <Link className={on('worked')} href={reviewOf(row)} prefetch={false} aria-label={messages.sum(row.mark, cell.text)}>
        {cell.text}
      </Link>
      <Pad cell={cell} />
    </>
  );
}

function Tally({ count }: { readonly count: number }) {
  return <td className={on('n wide')}>{count === 0 ? <span className={on('none')}>{count}</span> : <b>{count}</b>}</td>;
}
