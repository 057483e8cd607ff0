'use client';
import { see } from '../../_live/selectors';
import { live, useDisplay, useLive } from '../../_live/use';
import type { Frame } from '../../_ui/frame';
import { temperatureMessages } from '../messages-temperatures';
import styles from '../work.module.css';
import { expectedRows } from './expected';

/** Rows there is room for; what presses most stands first. */
const ROOM: Readonly<Record<Frame, number>> = { wide: 6, small: 3, phone: 2 };

/** What is expected, what to do about it and what it would bring, or why nothing is expected. */
export function ExpectedRows({ frame }: { readonly frame: Frame }) {
  const lane = useLive(see.forecast);
  const display = useDisplay();
  if (lane === null) return null;
  const clock = (seconds: number): string => {
    const now = live().serverNow() ?? lane.at;
    return new Date(Date.now() - now + seconds * 1000).toLocaleTimeString(display.locale, { hour: '2-digit', minute: '2-digit' });
  };
  const rows = expectedRows(lane, { display, clock }).slice(0, ROOM[frame]);
  return (
    <ul className={styles['holds']} aria-label={temperatureMessages.rows}>
      {rows.map(({ key, what, so, urgent }) => (
        <li key={`${key} ${what} ${so}`} data-expected={key} data-hold={urgent ? 'hold' : undefined}>
          <b>{what}</b>
          <span>{so}</span>
        </li>
      ))}
    </ul>
  );
}
