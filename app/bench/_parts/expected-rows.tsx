'use client';
import type { CSSProperties } from 'react';
import { see } from '../../_live/selectors';
import { live, useDisplay, useLive } from '../../_live/use';
import type { Frame } from '../../_ui/frame';
import { temperatureMessages } from '../messages-temperatures';
import styles from '../work.module.css';
import { expectedRows, fitting } from './expected';

/** Two texts to a row; under each other on a phone. */
const COLUMNS: Readonly<Record<Frame, CSSProperties | undefined>> = {
  wide: { gridTemplateColumns: '1fr 1.15fr' },
  small: { gridTemplateColumns: '1fr 1.15fr' },
  phone: undefined,
};

/** What is expected, what to do about it and what it would bring, or why nothing is expected. */
export function ExpectedRows({ frame }: { readonly frame: Frame }) {
  const lane = useLive(see.forecast);
  const display = useDisplay();
  if (lane === null) return null;
  const clock = (seconds: number): string => {
    const now = live().serverNow() ?? lane.at;
    return new Date(Date.now() - now + seconds * 1000).toLocaleTimeString(display.locale, { hour: '2-digit', minute: '2-digit' });
  };
  const rows = fitting(expectedRows(lane, { display, clock }), frame);
  return (
    // Other words, or another order, are another list: nothing in it moves.
    <ul key={rows.map(({ what, so }) => `${what} ${so}`).join(' ')} className={styles['holds']} aria-label={temperatureMessages.rows}>
      {rows.map(({ key, what, so, urgent }) => (
        <li key={key} data-expected={key} data-hold={urgent ? 'hold' : undefined} style={COLUMNS[frame]}>
          <b>{what}</b>
          <span>{so}</span>
        </li>
      ))}
    </ul>
  );
}
