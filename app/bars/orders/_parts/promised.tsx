'use client';
import { Fragment } from 'react';
import type { OrdersPage } from '#lib/protocol/orders';
import type { Taken } from '#lib/work/orders/reserve';
import { on } from '../../../_ui/classes';
import { Head } from '../../../_ui/head';
import { PaperSection } from '../../../_ui/section';
import { messages } from '../../messages-orders';

const { promised } = messages;

/** Lots by their marks; what is still to be poured has none, and is one sum. */
const fromWords = (taken: readonly Taken[], toPour: ReadonlySet<string>): readonly string[] => {
  const there = taken.filter(({ mark }) => !toPour.has(mark)).map(({ mark, bars }) => promised.of(bars, mark));
  const next = taken.reduce((sum, { mark, bars }) => (toPour.has(mark) ? sum + bars : sum), 0);
  return [...there, ...(next === 0 ? [] : [promised.toPour(next)])];
};

/** Which bars are kept for whom. */
export function Promised({ page: { outlook, names } }: { readonly page: OrdersPage }) {
  const { heads } = promised;
  const toPour = new Set(outlook.batches.map(({ mark }) => mark));
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
                {fromWords(taken, toPour).map((one, at) => (
                  <Fragment key={one}>
                    {at === 0 ? '' : ', '}
                    <span className={on('nw')}>{one}</span>
                  </Fragment>
                ))}
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
