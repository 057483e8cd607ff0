'use client';
import type { OrdersPage } from '#lib/protocol/orders';
import { massText } from '#lib/units/format';
import { piecesOnHand } from '#lib/work/orders/wraps';
import { useDisplay } from '../../../_live/use';
import { on } from '../../../_ui/classes';
import { Head } from '../../../_ui/head';
import { PaperSection } from '../../../_ui/section';
import { messages } from '../../messages-orders';
import { dayIn } from '#lib/words/day';

const { buy } = messages;
const MG = 1000;

/** A list for the supplier, the most urgent first. */
export function ToBuy({ page: { outlook, names, goods, onHand, drawn } }: { readonly page: OrdersPage }) {
  const display = useDisplay();
  const { heads } = buy;
  const wraps = new Set(goods.flatMap(({ id, kind }) => (kind === 'wrap' ? [id] : [])));
  const below = (thing: string): string | null => {
    const wrap = goods.find(({ id }) => wraps.has(id) && id === thing);
    if (wrap !== undefined) return piecesOnHand(wrap, drawn) < 0 ? buy.belowPieces : null;
    return (onHand[thing] ?? 0) < 0 ? buy.below : null;
  };
  const amount = (thing: string, value: number): string => (wraps.has(thing) ? buy.pieces(value) : massText(value, display, MG));
  return (
    <PaperSection name={buy.title} note={<p>{buy.note}</p>}>
      {outlook.buying.length === 0 ? (
        <p className={on('reading')}>{buy.nothing}</p>
      ) : (
        <table className={on('table')}>
          <caption className="unseen">{buy.caption}</caption>
          <thead>
            <tr>
              <Head name={heads.thing} />
              <Head name={heads.short} n />
              <Head name={heads.packs} n />
              <Head name={heads.by} />
              <Head name={heads.for} wide />
            </tr>
          </thead>
          <tbody>
            {outlook.buying.map(({ thing, short, packs, orderBy, late, neededOn }) => (
              <tr key={thing}>
                <th scope="row">
                  {names[thing] ?? thing}
                  {below(thing) === null ? null : <p className={on('dim')}>{below(thing)}</p>}
                </th>
                <td className={on('n')}>{amount(thing, short)}</td>
                <td className={on('n')}>{packs ?? buy.noPack}</td>
                <td>
                  {dayIn(orderBy, display.locale)}
                  {late ? <p className={on('warn')}>{buy.late}</p> : null}
                </td>
                <td className={on('wide')}>{dayIn(neededOn, display.locale)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {outlook.unplanned.map((id) => (
        <p key={id} className={on('warn')}>
          {buy.unplanned(names[id] ?? id)}
        </p>
      ))}
    </PaperSection>
  );
}
