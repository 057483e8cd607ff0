'use client';
import { see } from '../../_live/selectors';
import { useDisplay, useLive } from '../../_live/use';
import { showIn } from './words';
import { temperatureMessages } from '../messages-temperatures';
import styles from '../work.module.css';
import { makingRows } from './expected';

/** Above it lye that is being made steams, thousandths of a degree: common practice, no source. */
const STEAMS = 60_000;

/**
 * Before hydroxide goes into its liquid: how hot that gets, how to start, and what hot lye asks for. `short`: a line of the precautions, where
 * there is no room beside them.
 */
export function Making({ short }: { readonly short: boolean }) {
  const display = useDisplay();
  const making = useLive((state) => see.forecast(state)?.making ?? null);
  const milk = useLive(({ batch }) => batch?.plan.joining.milkLimit ?? null);
  if (making === null || making.found !== null) return null;
  const rows = makingRows(making, { display });
  if (short)
    return rows.map(({ key, what, so }) => (
      <li key={key} data-expected={key}>
        {what} {so}
      </li>
    ));
  const { hot, steams, scorches, limit } = temperatureMessages.making;
  const steaming = making.atMost.value + 2 * making.atMost.u > STEAMS;
  return (
    <ul className={styles['holds']}>
      {rows.map(({ key, what, so, urgent }) => (
        <li key={key} data-expected={key} data-hold={urgent ? 'hold' : undefined}>
          <b>{what}</b>
          <span>{so}</span>
        </li>
      ))}
      {milk === null ? null : (
        <li data-expected="milk">
          <b>{scorches}</b>
          <span>{limit(showIn(display, null).temperature(milk))}</span>
        </li>
      )}
      {steaming ? (
        <li data-expected="hot" data-hold="hold">
          <b>{hot}</b>
          <span>{steams}</span>
        </li>
      ) : null}
    </ul>
  );
}
