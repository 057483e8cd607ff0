'use client';
import type { OrdersPage } from '#lib/protocol/orders';
import { on } from '../../../_ui/classes';
import { Head } from '../../../_ui/head';
import { PaperSection } from '../../../_ui/section';
import { messages } from '../../messages-orders';

const { promised } = messages;

/** Which bars are kept for whom. */
export function Promised({ page: { outlook, names } }: { readonly page: OrdersPage }) {
  const { heads } = promised;
  return (
    <PaperSection name={promised.title} note={<p>{promised.note}</p>}>
      <table className={on('table')}>
        <caption className="unseen">{promised.caption}</caption>
        <thead>
          <tr>
            <Head name={heads.order} />
            <Head name={heads.soap} />
            <Head name={heads.from} />
            <Head name={heads.missing} n />
          </tr>
        </thead>
        <tbody>
          {outlook.reserved.map(({ wanted, taken, unsure, missing }) => (
            <tr key={`${wanted.order} ${wanted.formula} ${wanted.label ?? ''}`}>
              <th scope="row">{names[wanted.order] ?? wanted.order}</th>
              <td>{names[wanted.formula] ?? wanted.formula}</td>
              <td>
                {taken.map(({ mark, bars }) => promised.of(bars, mark)).join(', ')}
                {unsure.map(({ mark, bars }) => (
                  <p key={mark} className={on('dim')}>
                    {promised.unsure(bars, mark)}
                  </p>
                ))}
              </td>
              <td className={on('n')}>{missing === 0 ? promised.none : missing}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </PaperSection>
  );
}
