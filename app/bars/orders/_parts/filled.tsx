'use client';
import { useState } from 'react';
import type { HttpProblem } from '#lib/protocol/http';
import type { OrdersPage } from '#lib/protocol/orders';
import type { Order } from '#lib/work/orders/documents';
import { on } from '../../../_ui/classes';
import { Problem } from '../../../_ui/problem';
import { shelfApi } from '../../../_ui/shelf-api';
import { messages } from '../../messages-orders';

const { hand } = messages;

interface Props {
  readonly page: OrdersPage;
  readonly order: Order;
  readonly again: () => void;
}

/** How far an order is filled, from which lots; with everything handed over it can be marked as done. */
export function Filled({ page: { outlook, names }, order, again }: Props) {
  const [problem, setProblem] = useState<HttpProblem | null>(null);
  const stand = outlook.stands[order.id];
  if (stand === undefined) return null;
  const { asked, over, away, open, handed } = stand;
  const close = async (): Promise<void> => {
    const kept = await shelfApi.document('order', order.id);
    if (!kept.ok) return setProblem(kept.problem);
    const answer = await shelfApi.put('order', order.id, kept.value.versions.length, { ...order, state: 'done' }, hand.allOver);
    setProblem(answer.ok ? null : answer.problem);
    return again();
  };
  return (
    <>
      <p className={on('reading')} data-filled={order.id}>
        {hand.filled(over, asked, away)}
      </p>
      {handed.map((one) => (
        <p key={one.id} className={on('dim')}>
          {hand.lot(one.mark, names[one.formula] ?? one.formula, one.over, one.away)}
        </p>
      ))}
      {open === 0 && away === 0 ? (
        <div className={on('acts')}>
          <button type="button" className={on('act')} onClick={() => void close()}>
            {hand.done}
          </button>
        </div>
      ) : null}
      {problem === null ? null : <Problem problem={problem} />}
    </>
  );
}
