'use client';
import { useState } from 'react';
import type { OrdersPage } from '#lib/protocol/orders';
import { taskNote, taskTitle } from '#lib/words/agenda';
import { shortMoment } from '#lib/words/times';
import { useDisplay } from '../../../_live/use';
import { on } from '../../../_ui/classes';
import { CALENDAR } from '../../../_ui/orders-api';
import { PaperSection } from '../../../_ui/section';
import { messages } from '../../messages-orders';
import { dayIn } from '#lib/words/day';

const { days } = messages;
/** Lines shown before the rest is asked for. */
const FIRST = 14;

/** What must happen, by day. */
export function Days({ page: { outlook, names, today } }: { readonly page: OrdersPage }) {
  const [all, setAll] = useState(false);
  const { locale } = useDisplay();
  const name = (id: string): string => names[id] ?? id;
  const say = {
    day: (one: string) => dayIn(one, locale),
    moment: (wall: number) => shortMoment(wall, { offsetMin: null, locale }),
  };
  const shown = all ? outlook.agenda : outlook.agenda.slice(0, FIRST);
  return (
    <PaperSection name={days.title} note={<p>{days.note}</p>}>
      {shown.length === 0 ? (
        <p className={on('reading')}>{days.nothing}</p>
      ) : (
        <table className={on('table')}>
          <caption className="unseen">{days.title}</caption>
          <tbody>
            {shown.map(({ id, day, task }) => (
              <tr key={id}>
                <th scope="row">{day === today ? days.today : dayIn(day, locale)}</th>
                <td>
                  {taskTitle(task, name)}
                  <Note text={taskNote(task, name, say)} />
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <div className={on('acts')}>
        {shown.length < outlook.agenda.length ? (
          <button type="button" className={on('act')} onClick={() => setAll(true)}>
            {days.more(outlook.agenda.length - shown.length)}
          </button>
        ) : null}
        <a className={on('act')} href={CALENDAR}>
          {days.subscribe}
        </a>
      </div>
    </PaperSection>
  );
}

function Note({ text }: { readonly text: string }) {
  return text === '' ? null : <p className={on('dim')}>{text}</p>;
}
