'use client';
import { useState } from 'react';
import type { BarsRow } from '#lib/protocol/bars';
import type { HttpProblem } from '#lib/protocol/http';
import type { OrdersPage } from '#lib/protocol/orders';
import type { Order } from '#lib/work/orders/documents';
import { barsApi } from '../../../_ui/bars-api';
import { on } from '../../../_ui/classes';
import { Choice } from '../../../_ui/fields';
import { Problem } from '../../../_ui/problem';
import { PaperSection } from '../../../_ui/section';
import { useAsked } from '../../../_ui/use-asked';
import { problemOf } from '../../_parts/say';
import { messages } from '../../messages-orders';
import { Filled } from './filled';
import { HandTable } from './hand-table';
import { promisedOf } from './promised-lots';
import type { PromisedLot } from './promised-lots';

const { hand } = messages;

interface Props {
  readonly page: OrdersPage;
  readonly again: () => void;
}

/** Bars that leave for an order, or go along to a market: those promised to it, each lot with its count. */
export function HandOver({ page, again }: Props) {
  const [chosen, setChosen] = useState('');
  const open = page.orders.filter(({ state }) => state === 'open').toSorted((a, b) => a.due.localeCompare(b.due));
  const { asked, again: askRows } = useAsked(barsApi.open);
  const rows = asked.state === 'there' ? asked.value.bars : [];
  const order = open.find(({ id }) => id === chosen) ?? open[0];
  if (order === undefined) return null;
  const done = (): void => {
    askRows();
    again();
  };
  return (
    <PaperSection name={hand.title} note={<p>{hand.note}</p>}>
      <div className={on('form')}>
        <Choice id="hand-order" label={hand.order} value={order.id} options={open.map(({ id, name }) => [id, name])} onChange={setChosen} />
      </div>
      <Filled key={`filled ${order.id}`} page={page} order={order} again={done} />
      <Form key={order.id} order={order} lots={promisedOf(page, order.id, rows)} rows={rows} done={done} />
    </PaperSection>
  );
}

interface FormProps {
  readonly order: Order;
  readonly lots: readonly PromisedLot[];
  readonly rows: readonly BarsRow[];
  readonly done: () => void;
}

function Form({ order, lots, rows, done }: FormProps) {
  const [typed, setTyped] = useState<Readonly<Record<string, string>>>({});
  const [problem, setProblem] = useState<HttpProblem | null>(null);
  const [busy, setBusy] = useState(false);
  if (lots.length === 0) return null;
  const textOf = ({ row, ready, bars }: PromisedLot): string => typed[row.id] ?? (ready ? String(bars) : '');
  const counts = lots.map((lot) => ({ lot, text: textOf(lot).trim() })).filter(({ text }) => text !== '' && text !== '0');
  const sound = counts.length > 0 && counts.every(({ text }) => /^\d+$/.test(text));
  const isMarket = order.kind === 'market';
  const enter = async (): Promise<void> => {
    setBusy(true);
    for (const { lot, text } of counts) {
      const [count, at, note] = [Number(text), order.id, ''];
      const version = rows.find(({ id }) => id === lot.row.id)?.version ?? lot.row.version;
      const want = isMarket
        ? ({ kind: 'take', count, at, note } as const)
        : ({ kind: 'sell', count, to: order.buyer, at, from: 'shelf', note } as const);
      const wrong = problemOf(await barsApi.want(lot.row.id, version, want));
      setProblem(wrong);
      if (wrong !== null) break;
      setTyped((before) => ({ ...before, [lot.row.id]: '' }));
    }
    setBusy(false);
    done();
  };
  return (
    <>
      <HandTable lots={lots} textOf={textOf} onTyped={(id, text) => setTyped({ ...typed, [id]: text })} />
      <div className={on('acts')}>
        <button type="button" className={on('act first')} disabled={!sound || busy} onClick={() => void enter()}>
          {isMarket ? hand.take : hand.sell}
        </button>
      </div>
      {isMarket ? <p className={on('dim')}>{hand.afterwards}</p> : null}
      {problem === null ? null : <Problem problem={problem} />}
    </>
  );
}
