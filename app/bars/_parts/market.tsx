'use client';
import { useState } from 'react';
import { on } from '../../_ui/classes';
import { Choice, TextField } from '../../_ui/fields';
import { Problem } from '../../_ui/problem';
import { lotMessages } from '../messages-lot';
import { sales } from '../messages-sales';
import { numberIn } from './cut-model';
import type { LotProps } from './lot-props';
import { marketOptions, useOrders } from './use-orders';
import { useWant } from './use-want';

/** One count after a market: took, brought home, gave; the rest was sold. */
export function Market({ page: { row }, again }: LotProps) {
  const [typed, setTyped] = useState({ took: '', home: '', gave: '0' });
  const [at, setAt] = useState('');
  const { orders } = useOrders();
  const markets = marketOptions(orders);
  const wanting = useWant(row, again);
  const { counts: words } = lotMessages;
  const [took, home, gave] = [numberIn(typed.took), numberIn(typed.home), numberIn(typed.gave)];
  const sold = took === null || home === null || gave === null ? null : took - home - gave;
  const ready = sold !== null && sold >= 0 && took !== null && took > 0 && [took, home, gave].every(Number.isInteger);
  const enter = async (): Promise<void> => {
    if (!ready || took === null || home === null || gave === null) return;
    if (await wanting.want({ kind: 'count-market', took, home, gave, at: at === '' ? null : at, note: '' }))
      setTyped({ took: '', home: '', gave: '0' });
  };
  const field = (key: keyof typeof typed) => (
    <TextField
      id={`market-${key}`}
      label={words[key]}
      value={typed[key]}
      numeric
      onChange={(value) => setTyped({ ...typed, [key]: value })}
    />
  );
  return (
    <>
      <h3 className={on('minor gap')}>{words.market}</h3>
      <p className={on('dim')}>{words.marketNote}</p>
      <div className={on('form gap')}>
        {markets.length > 1 ? <Choice id="market-at" label={sales.market} value={at} options={markets} onChange={setAt} /> : null}
        {field('took')}
        {field('home')}
        {field('gave')}
        <div className={on('acts whole')}>
          <button type="button" className={on('act')} disabled={!ready || wanting.busy} onClick={() => void enter()}>
            {words.marketAct(sold ?? -1)}
          </button>
        </div>
      </div>
      {wanting.problem === null ? null : <Problem problem={wanting.problem} />}
    </>
  );
}
