'use client';
import { useState } from 'react';
import type { BarsRow } from '#lib/protocol/bars';
import type { HttpProblem } from '#lib/protocol/http';
import { awayFor } from '#lib/work/bars/handed';
import { barsApi } from '../../_ui/bars-api';
import { on } from '../../_ui/classes';
import { Choice } from '../../_ui/fields';
import { Head } from '../../_ui/head';
import { Problem } from '../../_ui/problem';
import { PaperSection } from '../../_ui/section';
import { shelfApi } from '../../_ui/shelf-api';
import { messages } from '../messages';
import { sales } from '../messages-sales';
import { numberIn } from './cut-model';
import { problemOf } from './say';
import { marketOptions, useOrders } from './use-orders';

const KEYS = ['took', 'home', 'gave'] as const;
type Typed = Readonly<Record<(typeof KEYS)[number], string>>;
const EMPTY: Typed = { took: '', home: '', gave: '' };

interface Count {
  readonly took: number;
  readonly home: number;
  readonly gave: number;
  readonly sold: number;
}

/** `null`: nothing was typed for this lot; `'wrong'`: it cannot be so. `away`: taken along before, which stands where no other number is typed. */
const countOf = ({ took, home, gave }: Typed, away: number): Count | 'wrong' | null => {
  if ([took, home, gave].every((text) => text.trim() === '')) return null;
  const numbers = [took.trim() === '' && away > 0 ? String(away) : took, home, gave].map((text) =>
    text.trim() === '' ? 0 : numberIn(text),
  );
  const [t, h, g] = numbers;
  if (t == null || h == null || g == null || !numbers.every(Number.isInteger)) return 'wrong';
  return t > 0 && h >= 0 && g >= 0 && t - h - g >= 0 ? { took: t, home: h, gave: g, sold: t - h - g } : 'wrong';
};

/** After a market one count for each lot: taken, brought home, given; the rest was sold. */
export function MarketDay({ rows, onSaid }: { readonly rows: readonly BarsRow[]; readonly onSaid: () => void }) {
  const [typed, setTyped] = useState<Readonly<Record<string, Typed>>>({});
  const [problem, setProblem] = useState<HttpProblem | null>(null);
  const [busy, setBusy] = useState(false);
  const [said, setSaid] = useState<string | null>(null);
  const [over, setOver] = useState(true);
  const { orders, again: askOrders } = useOrders();
  const markets = marketOptions(orders);
  const { market } = messages;
  const lots = rows.filter(({ held, counts }) => counts.away > 0 || (held === null && counts.shelf > 0));
  // What was taken along to one market is counted there, until somebody says otherwise.
  const went = [...new Set(lots.flatMap((row) => row.orders.flatMap(({ order, away }) => (away > 0 ? [order] : []))))];
  const at = said ?? (went.length === 1 ? (went[0] ?? '') : '');
  const chosen = orders.find(({ order }) => order.id === at);
  const counts = lots.flatMap((row) => {
    const count = countOf(typed[row.id] ?? EMPTY, awayFor(row, chosen?.order.id ?? null));
    return count === null ? [] : [{ row, count }];
  });
  const uncounted = lots.filter(
    (row) => row.orders.some(({ order, away }) => order === at && away > 0) && !counts.some((one) => one.row.id === row.id),
  );
  const sound = counts.length > 0 && counts.every(({ count }) => count !== 'wrong');
  const stop = (): void => {
    setBusy(false);
    onSaid();
    askOrders();
  };
  const enter = async (): Promise<void> => {
    setBusy(true);
    for (const { row, count } of counts) {
      if (count === 'wrong') continue;
      const { took, home, gave } = count;
      const answer = await barsApi.want(row.id, row.version, {
        kind: 'count-market',
        took,
        home,
        gave,
        at: chosen?.order.id ?? null,
        note: '',
      });
      const wrong = problemOf(answer);
      setProblem(wrong);
      if (wrong !== null) return stop();
      setTyped((before) => ({ ...before, [row.id]: EMPTY }));
    }
    if (chosen !== undefined && over && uncounted.length === 0) {
      const { order, version } = chosen;
      const kept = await shelfApi.put('order', order.id, version, { ...order, state: 'done' }, sales.over.label);
      setProblem(kept.ok ? null : kept.problem);
      if (kept.ok) setSaid(null);
    }
    stop();
  };
  if (lots.length === 0) return null;
  return (
    <PaperSection name={market.title} note={<p>{market.note}</p>}>
      <details>
        <summary className={on('link')}>{market.open}</summary>
        <table className={on('table gap')}>
          <caption className="unseen">{market.title}</caption>
          <thead>
            <tr>
              <Head name={messages.shelf.heads.lot} />
              {KEYS.map((key) => (
                <Head key={key} name={market.heads[key]} n />
              ))}
              <Head name={market.heads.sold} n />
            </tr>
          </thead>
          <tbody>
            {lots.map((row) => (
              <Row
                key={row.id}
                row={row}
                away={awayFor(row, chosen?.order.id ?? null)}
                typed={typed[row.id] ?? EMPTY}
                onTyped={(next) => setTyped({ ...typed, [row.id]: next })}
              />
            ))}
          </tbody>
        </table>
        {markets.length < 2 ? null : (
          <div className={on('form gap')}>
            <Choice id="day-at" label={sales.market} value={at} options={markets} onChange={setSaid} />
            {chosen === undefined ? null : (
              <label className={on('whole')}>
                <input type="checkbox" checked={over} onChange={(event) => setOver(event.target.checked)} /> {sales.over.label}
                <span className={on('dim')}> {sales.over.note}</span>
              </label>
            )}
          </div>
        )}
        {over && uncounted.length > 0 ? <p className={on('warn')}>{sales.over.uncounted(uncounted.map(({ mark }) => mark))}</p> : null}
        <div className={on('acts')}>
          <button type="button" className={on('act first')} disabled={!sound || busy} onClick={() => void enter()}>
            {market.act}
          </button>
        </div>
        {problem === null ? null : <Problem problem={problem} />}
      </details>
    </PaperSection>
  );
}

interface RowProps {
  readonly row: BarsRow;
  /** Taken along to the market that is counted. */
  readonly away: number;
  readonly typed: Typed;
  readonly onTyped: (typed: Typed) => void;
}

function Row({ row, away, typed, onTyped }: RowProps) {
  const { market } = messages;
  const count = countOf(typed, away);
  return (
    <tr>
      <th scope="row">
        <span className={on('mark')}>{`${row.mark} `}</span>
        {row.formula.name}
      </th>
      {KEYS.map((key) => (
        <td key={key} className={on('n')}>
          <input
            className={on('field n')}
            size={4}
            value={typed[key]}
            placeholder={key === 'took' && away > 0 ? String(away) : undefined}
            inputMode="numeric"
            aria-label={market.of(market.heads[key], row.mark)}
            aria-invalid={count === 'wrong'}
            onChange={(event) => onTyped({ ...typed, [key]: event.target.value })}
          />
        </td>
      ))}
      <td className={on('n')}>{count === null || count === 'wrong' ? '' : count.sold}</td>
    </tr>
  );
}
