'use client';
import { useState } from 'react';
import { hadBy } from '#lib/work/bars/handed';
import type { Had } from '#lib/work/bars/handed';
import type { ReturnedTo } from '#lib/work/bars/index';
import { on } from '../../_ui/classes';
import { Choice, TextField } from '../../_ui/fields';
import { Problem } from '../../_ui/problem';
import { sales } from '../messages-sales';
import { numberIn } from './cut-model';
import type { LotProps } from './lot-props';
import type { Person } from './use-buyers';
import { useWant } from './use-want';

const { back, aside } = sales;
// What nobody has looked at yet is not for sale: that stands first.
const INTO = Object.entries(back.intos) as readonly (readonly [ReturnedTo, string])[];

/** Bars a buyer gives back: how many, from whom, and what becomes of them. */
export function Returned({ page, buyers, again }: LotProps & { readonly buyers: readonly Person[] }) {
  const had = hadBy(page.state.moves);
  return (
    <>
      <Aside page={page} again={again} />
      {had.length === 0 ? null : (
        <details className={on('gap')}>
          <summary className={on('link')}>{back.open}</summary>
          <p className={on('dim')}>{back.note}</p>
          <Form page={page} buyers={buyers} had={had} again={again} />
        </details>
      )}
    </>
  );
}

const whoOf = ({ to, at }: Had, buyers: readonly Person[], orders: Readonly<Record<string, string>>): string => {
  const name = to === null ? null : (buyers.find(({ id }) => id === to)?.name ?? back.erased);
  const parts = [name, at === null ? null : (orders[at] ?? at)].filter((one) => one !== null);
  return parts.length === 0 ? back.somebody : parts.join(', ');
};

const keyOf = ({ was, to, at }: Had): string => JSON.stringify([was, to, at]);

interface FormProps extends LotProps {
  readonly buyers: readonly Person[];
  readonly had: readonly Had[];
}

function Form({ page: { row, orders }, buyers, had, again }: FormProps) {
  const [from, setFrom] = useState('');
  const [typed, setTyped] = useState({ count: '', why: '' });
  const [into, setInto] = useState<ReturnedTo>('aside');
  const wanting = useWant(row, again);
  // By who had them, not by their place: another screen may change the list meanwhile.
  const one = from === '' ? had[0] : had.find((each) => keyOf(each) === from);
  const count = numberIn(typed.count);
  const most = one?.count ?? 0;
  const ready = count !== null && Number.isInteger(count) && count > 0 && count <= most;
  const enter = async (): Promise<void> => {
    if (!ready || one === undefined) return;
    const { was, to, at } = one;
    const done = await wanting.want({ kind: 'bring-home', count, from: 'buyer', to, at, note: typed.why.trim(), was, into });
    if (done) setTyped({ count: '', why: '' });
  };
  const gone = one === undefined ? [['', ''] as const] : [];
  const listed = had.map((each) => [keyOf(each), back.had(whoOf(each, buyers, orders), each.count, each.was)] as const);
  return (
    <>
      <div className={on('form gap')}>
        <Choice
          id="back-from"
          label={back.from}
          value={one === undefined ? '' : keyOf(one)}
          options={[...gone, ...listed]}
          onChange={setFrom}
        />
        <TextField
          id="back-count"
          label={back.count}
          value={typed.count}
          numeric
          onChange={(text) => setTyped({ ...typed, count: text })}
        />
        <Choice id="back-into" label={back.into} value={into} options={INTO} onChange={setInto} />
        <TextField id="back-why" label={back.why} value={typed.why} onChange={(why) => setTyped({ ...typed, why })} />
        <div className={on('acts whole')}>
          <button type="button" className={on('act')} disabled={!ready || wanting.busy} onClick={() => void enter()}>
            {back.act}
          </button>
        </div>
      </div>
      {wanting.problem === null ? null : <Problem problem={wanting.problem} />}
    </>
  );
}

/** What was kept apart, one bar after another or all that are typed: back to the shelf, or spoiled. */
function Aside({ page: { row, state }, again }: LotProps) {
  const [typed, setTyped] = useState('1');
  const wanting = useWant(row, again);
  const there = state.counts.aside;
  if (there === 0) return null;
  const count = numberIn(typed);
  const ready = count !== null && Number.isInteger(count) && count > 0 && count <= there;
  const rest = { to: null, at: null, from: 'aside', note: '' } as const;
  const act = (kind: 'bring-home' | 'spoil', words: string) => (
    <button
      type="button"
      className={on('act')}
      disabled={!ready || wanting.busy}
      onClick={() => void (count === null ? null : wanting.want({ kind, count, ...rest }))}
    >
      {words}
    </button>
  );
  return (
    <div className={on('gap')} data-aside={there}>
      <p>
        <b>{aside.said(there)}</b>
      </p>
      <div className={on('form gap')}>
        <TextField id="aside-count" label={aside.count} value={typed} numeric onChange={setTyped} />
        <div className={on('acts whole')}>
          {act('bring-home', aside.stock)}
          {act('spoil', aside.spoil)}
        </div>
      </div>
      {wanting.problem === null ? null : <Problem problem={wanting.problem} />}
    </div>
  );
}
