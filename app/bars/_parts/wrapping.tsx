'use client';
import type { Route } from 'next';
import Link from 'next/link';
import { useState } from 'react';
import type { WrapsPage } from '#lib/protocol/orders';
import { drawFrom, perBarOf, piecesFor, wrapOnHand } from '#lib/work/orders/wraps';
import type { WrapOnHand } from '#lib/work/orders/wraps';
import { on } from '../../_ui/classes';
import { TextField } from '../../_ui/fields';
import { ordersApi } from '../../_ui/orders-api';
import { Problem } from '../../_ui/problem';
import { PaperSection } from '../../_ui/section';
import { useAsked } from '../../_ui/use-asked';
import { wraps as words } from '../messages-wraps';
import { CrossLast } from './cross-last';
import { numberIn } from './cut-model';
import type { LotProps } from './lot-props';
import { useWant } from './use-want';

/** One lot of a wrap as it may be used: what is proposed of it. */
interface Row extends WrapOnHand {
  readonly goods: string;
  readonly name: string;
  readonly proposed: number;
}

/** What so many bars take, lot by lot: of each wrap the lots that are not empty, and those it is taken from. */
const rowsFor = ({ wraps, drawn }: WrapsPage, formula: string, bars: number): readonly Row[] =>
  wraps
    .filter((one) => perBarOf(one, formula) > 0)
    .flatMap((goods) => {
      const lots = wrapOnHand(goods, drawn);
      const { from } = drawFrom(lots, piecesFor(goods, formula, bars));
      return lots.flatMap((lot, at): readonly Row[] => {
        const proposed = from.find((one) => one.lot === lot.lot)?.pieces ?? 0;
        const isThere = proposed > 0 || lot.left === null || lot.left > 0 || at === lots.length - 1;
        return isThere ? [{ ...lot, goods: goods.id, name: goods.name, proposed }] : [];
      });
    });

const keyOf = ({ goods, lot }: Pick<Row, 'goods' | 'lot'>): string => JSON.stringify([goods, lot]);
const isCount = (value: number | null): value is number => value !== null && Number.isInteger(value) && value >= 0;

/** Bars get what they are sold in: one entry draws every piece from its lot. */
export function Wrapping(props: LotProps) {
  const { row } = props.page;
  const { asked, again } = useAsked(() => ordersApi.wraps(), { key: row.id, revision: row.version });
  if (asked.state !== 'there') return null;
  const { wraps } = asked.value;
  const any = wraps.some((one) => perBarOf(one, row.formula.id) > 0);
  const wrapped = row.wrapped?.bars ?? 0;
  return (
    <PaperSection name={words.title} note={<p>{words.note}</p>}>
      {wrapped > 0 || any ? <p className={on('reading')}>{words.so(wrapped, row.counts.made)}</p> : null}
      {any ? (
        <Form {...props} there={asked.value} again={() => (props.again(), again())} />
      ) : (
        <p className={on('reading')}>
          {words.none}{' '}
          <Link href={'/bars/orders' as Route} prefetch={false}>
            {words.where}
          </Link>
        </p>
      )}
    </PaperSection>
  );
}

function Form({ page: { row, state }, there, again }: LotProps & { readonly there: WrapsPage }) {
  const [count, setCount] = useState<string | null>(null);
  const [typed, setTyped] = useState<Readonly<Record<string, string>>>({});
  const wanting = useWant(row, again);
  const unwrapped = Math.max(0, Math.min(row.counts.shelf, row.counts.made - (row.wrapped?.bars ?? 0)));
  const shown = count ?? String(unwrapped);
  const bars = numberIn(shown);
  const rows = rowsFor(there, row.formula.id, isCount(bars) ? bars : 0).map((one) => {
    const text = typed[keyOf(one)] ?? String(one.proposed);
    return { ...one, text, pieces: numberIn(text.trim() === '' ? '0' : text) };
  });
  const used = rows.flatMap(({ goods, lot, pieces }) => (isCount(pieces) && pieces > 0 ? [{ goods, lot, pieces }] : []));
  const ready = isCount(bars) && rows.every(({ pieces }) => isCount(pieces)) && used.length > 0;
  const short = rows.flatMap((one) =>
    one.left !== null && (one.pieces ?? 0) > one.left ? [{ ...one, by: (one.pieces ?? 0) - Math.max(0, one.left) }] : [],
  );
  const wrap = async (): Promise<void> => {
    if (!ready || !(await wanting.want({ kind: 'wrap', bars, used, note: '' }))) return;
    setCount(null);
    setTyped({});
  };
  return (
    <>
      <div className={on('form gap')}>
        <TextField
          id="wrap-count"
          label={words.count}
          value={shown}
          numeric
          onChange={(text) => {
            setCount(text);
            setTyped({});
          }}
        />
        {rows.map((one, at) => (
          <TextField
            key={keyOf(one)}
            id={`wrap-${at}`}
            label={words.pieces(one.name, one.lot, one.left)}
            value={one.text}
            numeric
            onChange={(text) => setTyped({ ...typed, [keyOf(one)]: text })}
          />
        ))}
        <div className={on('acts whole')}>
          <button type="button" className={on('act')} disabled={!ready || wanting.busy} onClick={() => void wrap()}>
            {words.act}
          </button>
          <CrossLast last={state.wraps.findLast(({ struck }) => struck === null)} wanting={wanting} words={words.cross} />
        </div>
      </div>
      {short.map((one) => (
        <p key={keyOf(one)} className={on('warn gap')}>
          {words.short(one.name, one.by)}
        </p>
      ))}
      {wanting.problem === null ? null : <Problem problem={wanting.problem} />}
    </>
  );
}
