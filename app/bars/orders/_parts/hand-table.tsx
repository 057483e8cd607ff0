'use client';
import { useDisplay } from '../../../_live/use';
import { on } from '../../../_ui/classes';
import { Head } from '../../../_ui/head';
import { messages } from '../../messages-orders';
import { dayIn } from '#lib/words/day';
import type { PromisedLot } from './promised-lots';

const { hand } = messages;

interface Props {
  readonly lots: readonly PromisedLot[];
  readonly textOf: (lot: PromisedLot) => string;
  readonly onTyped: (lot: string, text: string) => void;
}

/** One count for each lot; what is not ready yet stands empty. */
export function HandTable({ lots, textOf, onTyped }: Props) {
  const { locale } = useDisplay();
  const { heads } = hand;
  return (
    <table className={on('table gap')}>
      <caption className="unseen">{hand.title}</caption>
      <thead>
        <tr>
          <Head name={heads.lot} />
          <Head name={heads.place} wide />
          <Head name={heads.promised} n />
          <Head name={heads.count} n />
        </tr>
      </thead>
      <tbody>
        {lots.map((lot) => {
          const { row, bars, ready, day } = lot;
          const text = textOf(lot);
          return (
            <tr key={row.id} data-lot={row.id}>
              <th scope="row">
                <span className={on('mark')}>{`${row.mark} `}</span>
                {row.formula.name}
                {ready ? null : <p className={on('dim')}>{hand.notReady(dayIn(day, locale))}</p>}
              </th>
              <td className={on('wide')}>{row.place?.name ?? ''}</td>
              <td className={on('n')}>{bars}</td>
              <td className={on('n')}>
                <input
                  className={on('field n')}
                  size={4}
                  value={text}
                  inputMode="numeric"
                  aria-label={hand.of(row.mark)}
                  aria-invalid={!/^\d*$/.test(text.trim())}
                  onChange={(event) => onTyped(row.id, event.target.value)}
                />
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}
