'use client';
import { useState } from 'react';
import { on } from '../../_ui/classes';
import { Choice, TextField } from '../../_ui/fields';
import { Problem } from '../../_ui/problem';
import { lotMessages } from '../messages-lot';
import { sales } from '../messages-sales';
import { CrossLast } from './cross-last';
import { numberIn } from './cut-model';
import type { LotProps } from './lot-props';
import type { Person } from './use-buyers';
import { orderOptions, useOrders } from './use-orders';
import { useWant } from './use-want';

type Kind = 'sell' | 'give' | 'spoil';
const KINDS: readonly Kind[] = ['sell', 'give', 'spoil'];

/** One tap or a count for bars that go: to whom, and for which order. */
export function Leaving({ page: { row, state }, buyers, again }: LotProps & { readonly buyers: readonly Person[] }) {
  const [count, setCount] = useState('1');
  const [to, setTo] = useState('');
  const [at, setAt] = useState('');
  const { orders, again: askOrders } = useOrders();
  const wanting = useWant(row, again);
  const { counts: words } = lotMessages;
  const bars = numberIn(count);
  const ready = bars !== null && Number.isInteger(bars) && bars > 0;
  const last = state.moves.findLast(({ struck }) => struck === null);
  const named = buyers.flatMap(({ id, name }) => (name === null ? [] : [[id, name] as const]));
  /** Whoever ordered is who takes it, unless somebody else was named. */
  const chooseOrder = (id: string): void => {
    setAt(id);
    const buyer = orders.find(({ order }) => order.id === id)?.order.buyer ?? '';
    if (named.some(([one]) => one === buyer)) setTo(buyer);
  };
  const leave = async (kind: Kind): Promise<void> => {
    if (!ready) return;
    const gone = kind === 'spoil';
    const [who, order] = [gone || to === '' ? null : to, gone || at === '' ? null : at];
    if (!(await wanting.want({ kind, count: bars, to: who, at: order, from: 'shelf', note: '' }))) return;
    setCount('1');
    askOrders();
  };
  return (
    <>
      <div className={on('form gap')}>
        <TextField id="leave-count" label={words.count} value={count} numeric onChange={setCount} />
        {orders.length === 0 ? null : (
          <Choice id="leave-at" label={sales.for} value={at} options={orderOptions(orders, row)} onChange={chooseOrder} />
        )}
        <Choice id="leave-to" label={words.to} value={to} options={[['', words.nobody] as const, ...named]} onChange={setTo} />
        <div className={on('acts whole')}>
          {KINDS.map((kind) => (
            <button
              key={kind}
              type="button"
              className={kind === 'sell' ? on('act first') : on('act')}
              disabled={!ready || wanting.busy}
              onClick={() => void leave(kind)}
            >
              {words[kind]}
            </button>
          ))}
          <CrossLast last={last} wanting={wanting} words={words.cross} />
        </div>
      </div>
      {wanting.problem === null ? null : <Problem problem={wanting.problem} />}
    </>
  );
}
