'use client';
import { useState } from 'react';
import type { CostPage } from '#lib/protocol/orders';
import { numberText } from '#lib/units/format';
import { useDisplay } from '../../_live/use';
import { on } from '../../_ui/classes';
import { ordersApi } from '../../_ui/orders-api';
import { PaperSection } from '../../_ui/section';
import { useAsked } from '../../_ui/use-asked';
import { messages } from '../messages-cost';

/** What one bar of the lot costs; it opens to what it is made of. Nothing stands here before the batch is cut. */
export function LotCost({ id, version }: { readonly id: string; readonly version: number }) {
  const { asked } = useAsked(() => ordersApi.cost(id), { key: id, revision: version });
  if (asked.state !== 'there' || asked.value.cost === null) return null;
  return <Known cost={asked.value.cost} money={asked.value.money} />;
}

function Known({ cost, money }: { readonly cost: NonNullable<CostPage['cost']>; readonly money: string }) {
  const [open, setOpen] = useState(false);
  const { locale } = useDisplay();
  const sum = (value: number): string => `${numberText(value, locale, 2)} ${money}`.trim();
  const rows = [
    ...cost.of.map(({ name, each }) => [name, each] as const),
    [messages.packaging, cost.packaging] as const,
    [messages.time, cost.time] as const,
  ];
  return (
    <PaperSection name={messages.title} note={<p>{messages.note}</p>}>
      <p className={on('reading')}>
        {cost.unknown.length === 0 ? messages.is : messages.isAtLeast}{' '}
        <button type="button" className={on('worked')} aria-expanded={open} onClick={() => setOpen(!open)}>
          {sum(cost.whole)}
        </button>
      </p>
      {cost.unknown.length === 0 ? null : <p className={on('dim')}>{messages.unknown(cost.unknown)}</p>}
      {open ? (
        <table className={on('table gap')}>
          <caption className="unseen">{messages.title}</caption>
          <tbody>
            {rows.map(([name, each]) => (
              <tr key={name}>
                <th scope="row">{name}</th>
                <td className={on('n')}>{sum(each)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      ) : null}
    </PaperSection>
  );
}
