'use client';
import { useState } from 'react';
import type { OrdersPage } from '#lib/protocol/orders';
import type { Clash, Proposed } from '#lib/work/orders/propose';
import { massText } from '#lib/units/format';
import { useDisplay } from '../../../_live/use';
import { on } from '../../../_ui/classes';
import { Head } from '../../../_ui/head';
import { PaperSection } from '../../../_ui/section';
import { messages } from '../../messages-orders';
import { dayIn, shortDayIn } from '#lib/words/day';

const { pour } = messages;
const COLUMNS = 6;
const MG = 1000;

type NameOf = (id: string) => string;

/** Batches on their last safe days, and what stands in the way. */
export function ToPour({ page: { outlook, names } }: { readonly page: OrdersPage }) {
  const display = useDisplay();
  const { heads } = pour;
  const name: NameOf = (id) => names[id] ?? id;
  const grams = (value: number): string => massText(value * MG, display, MG);
  return (
    <PaperSection name={pour.title} note={<p>{pour.note}</p>}>
      {outlook.batches.length === 0 ? (
        <p className={on('reading')}>{pour.nothing}</p>
      ) : (
        <table className={on('table')}>
          <caption className="unseen">{pour.caption}</caption>
          <thead>
            <tr>
              <Head name={heads.day} />
              <Head name={heads.soap} />
              <Head name={heads.for} wide />
              <Head name={heads.bars} n />
              <Head name={heads.spare} n wide />
              <Head name={heads.ready} />
            </tr>
          </thead>
          <tbody>
            {outlook.batches.map((one) => (
              <Batch key={one.mark} batch={one} name={name} />
            ))}
          </tbody>
        </table>
      )}
      {outlook.clashes.map((one) => (
        <p key={JSON.stringify(one)} className={on('warn')}>
          {clashText(one, name, grams)}
        </p>
      ))}
      {outlook.crowded.map(({ day, over }) => (
        <p key={day} className={on('warn')}>
          {pour.crowded(dayIn(day, display.locale), String(over))}
        </p>
      ))}
    </PaperSection>
  );
}

function Batch({ batch, name }: { readonly batch: Proposed; readonly name: NameOf }) {
  const [open, setOpen] = useState(false);
  const { locale } = useDisplay();
  const { pour: day, formula, order, bars, spare, ready, late } = batch;
  return (
    <>
      <tr>
        <th scope="row">
          {dayIn(day, locale)}
          {late === 0 ? null : <p className={on('warn')}>{pour.late(late)}</p>}
        </th>
        <td>{name(formula)}</td>
        <td className={on('wide')}>{name(order)}</td>
        <td className={on('n')}>{bars}</td>
        <td className={on('n wide')}>{spare}</td>
        <td>
          <button type="button" className={on('worked nw')} aria-expanded={open} onClick={() => setOpen(!open)}>
            {pour.ready(shortDayIn(ready.likely, locale))}
          </button>
        </td>
      </tr>
      {open ? (
        <tr>
          <td colSpan={COLUMNS} className={on('dim')}>
            {pour.interval(dayIn(ready.from, locale, true), dayIn(ready.by, locale, true))}
          </td>
        </tr>
      ) : null}
    </>
  );
}

const clashText = (clash: Clash, name: NameOf, grams: (value: number) => string): string => {
  const [order, soap] = [name(clash.order), name(clash.formula)];
  switch (clash.what) {
    case 'too-late':
      return pour.clash['too-late'](order, soap, clash.days);
    case 'moulds':
      return pour.clash.moulds(order, soap, name(clash.mould));
    case 'no-day':
      return pour.clash['no-day'](order, soap, clash.bars);
    case 'unknown-making':
      return pour.clash['unknown-making'](order, soap);
    case 'label':
      break;
  }
  return pour.clash.label(order, soap, clash.carries === null ? null : grams(clash.carries));
};
