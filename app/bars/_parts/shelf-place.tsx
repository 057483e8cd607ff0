'use client';
import { useState } from 'react';
import { shortDate } from '#lib/words/times';
import { useDisplay } from '../../_live/use';
import { on } from '../../_ui/classes';
import { TextField } from '../../_ui/fields';
import { Problem } from '../../_ui/problem';
import { PaperSection } from '../../_ui/section';
import { lotMessages } from '../messages-lot';
import type { LotProps } from './lot-props';
import { useWant } from './use-want';

/** Where the lot stands, and whether it is held from sale. */
export function ShelfPlace({ page: { row, state }, places, again }: LotProps & { readonly places: readonly string[] }) {
  const { locale } = useDisplay();
  const [place, setPlace] = useState('');
  const [reason, setReason] = useState('');
  const wanting = useWant(row, again);
  const { shelf } = lotMessages;
  const move = async (to: string): Promise<void> => {
    if (await wanting.want({ kind: 'move', place: to.trim() })) setPlace('');
  };
  const hold = async (): Promise<void> => {
    if (await wanting.want({ kind: 'hold', reason: reason.trim() })) setReason('');
  };
  const others = places.filter((one) => one !== row.place?.name);
  return (
    <PaperSection name={shelf.title} note={<p>{shelf.note}</p>}>
      <p>{row.place === null ? shelf.nowhere : shelf.since(row.place.name, shortDate(row.place.since, { offsetMin: null, locale }))}</p>
      {others.length === 0 ? null : (
        <div className={on('acts')}>
          {others.map((one) => (
            <button key={one} type="button" className={on('act')} disabled={wanting.busy} onClick={() => void move(one)}>
              {one}
            </button>
          ))}
        </div>
      )}
      <div className={on('form gap')}>
        <TextField id="place" label={shelf.place} value={place} onChange={setPlace} />
        <div className={on('acts')}>
          <button type="button" className={on('act')} disabled={place.trim() === '' || wanting.busy} onClick={() => void move(place)}>
            {shelf.move}
          </button>
        </div>
      </div>
      <div className={on('form gap')}>
        {state.held === null ? (
          <>
            <TextField id="hold-reason" label={shelf.reason} value={reason} onChange={setReason} />
            <div className={on('acts')}>
              <button type="button" className={on('act')} disabled={reason.trim() === '' || wanting.busy} onClick={() => void hold()}>
                {shelf.hold}
              </button>
            </div>
          </>
        ) : (
          <div className={on('acts whole')}>
            <b className={on('warn')}>{lotMessages.lead.held(state.held.reason)}</b>
            <button
              type="button"
              className={on('act')}
              disabled={wanting.busy}
              onClick={() => void wanting.want({ kind: 'release', note: '' })}
            >
              {shelf.release}
            </button>
          </div>
        )}
      </div>
      {wanting.problem === null ? null : <Problem problem={wanting.problem} />}
    </PaperSection>
  );
}
