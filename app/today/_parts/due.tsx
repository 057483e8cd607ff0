import type { Route } from 'next';
import Link from 'next/link';
import { Fragment } from 'react';
import type { BarsRow } from '#lib/protocol/bars';
import type { Due } from '#lib/work/bars/due';
import { shortMoment } from '#lib/words/times';
import { useDisplay } from '../../_live/use';
import { PaperSection } from '../../_ui/section';
import { useNow } from '../../_ui/use-now';
import { messages } from '../messages';
import { groupedDues } from './grouped';
import type { DueLot } from './grouped';
import { on } from './classes';

/** Rows; more are on the page of bars. */
const MOST = 12;

/** What wants a hand today: out of the mould, cut, weigh, photograph; and what has become ready. */
export function DueToday({ dues }: { readonly dues: readonly DueLot[] }) {
  const { due } = messages;
  if (dues.length === 0) return null;
  const groups = groupedDues(dues);
  const more = groups.slice(MOST).reduce((sum, { rows }) => sum + rows.length, 0);
  return (
    <PaperSection name={due.title} note={<p>{due.note}</p>}>
      <table className={on('table')}>
        <caption className="unseen">{due.title}</caption>
        <tbody>
          {groups.slice(0, MOST).map(({ what, place, before, rows }) => (
            <tr key={`${rows[0]?.id} ${what}`} data-due={what}>
              <td>
                {due.what[what]}
                <Before wall={before} />
              </td>
              <th scope="row">
                {rows.map((row, at) => (
                  <Fragment key={row.id}>
                    {at > 0 ? ', ' : null}
                    <Link href={hrefOf(row, what)} prefetch={false}>
                      <span className={on('none nw')}>{row.mark}</span> {row.formula.name}
                    </Link>
                  </Fragment>
                ))}
              </th>
              <td>{place}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {more === 0 ? null : (
        <p className={on('gap')}>
          {due.more(more)} <Link href="/bars">{due.all}</Link>
        </p>
      )}
    </PaperSection>
  );
}

/** By when a log has to be cut: past that it may crumble. */
function Before({ wall }: { readonly wall: number | null }) {
  const now = useNow();
  const { locale } = useDisplay();
  if (wall === null) return null;
  const when = shortMoment(wall, { offsetMin: null, locale });
  const late = now !== null && wall < now;
  return <p className={on(late ? 'warn' : 'dim')}>{late ? messages.due.late(when) : messages.due.before(when)}</p>;
}

const hrefOf = ({ id }: BarsRow, what: Due): Route =>
  (what === 'weigh' ? `/bench/bars?id=${encodeURIComponent(id)}` : `/bars/lot?id=${encodeURIComponent(id)}`) as Route;
