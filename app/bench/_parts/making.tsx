'use client';
import { see } from '../../_live/selectors';
import { useDisplay, useLive } from '../../_live/use';
import { useFrame } from '../../_ui/frame';
import { showIn } from './words';
import { temperatureMessages } from '../messages-temperatures';
import styles from '../work.module.css';
import { fitting, makingRows } from './expected';

/** Above it lye that is being made steams, thousandths of a degree: common practice, no source. */
const STEAMS = 60_000;
/** Rows beside first aid. */
const MOST = 3;

/**
 * Before hydroxide goes into its liquid: how hot that gets, how to start, and what hot lye asks for. `short`: a line of the precautions, where
 * there is no room beside them.
 */
export function Making({ short }: { readonly short: boolean }) {
  const display = useDisplay();
  const frame = useFrame();
  const making = useLive((state) => see.forecast(state)?.making ?? null);
  const milk = useLive(({ batch }) => batch?.plan.joining.milkLimit ?? null);
  if (making === null || making.found !== null) return null;
  const { hot, steams, scorches, limit } = temperatureMessages.making;
  const rows = makingRows(making, { display });
  const all = [
    ...rows,
    ...(making.atMost.value + 2 * making.atMost.u > STEAMS ? [{ key: 'hot', what: hot, so: steams, urgent: true }] : []),
    ...(milk === null ? [] : [{ key: 'milk', what: scorches, so: limit(showIn(display, null).temperature(milk)), urgent: true }]),
  ];
  if (short)
    return rows.map(({ key, what, so }) => (
      <li key={key} data-expected={key}>
        {what} {so}
      </li>
    ));
  return (
    <ul className={styles['holds']} style={{ flex: 1 }}>
      {(frame === 'small' ? fitting(all, frame) : all.slice(0, MOST)).map(({ key, what, so, urgent }) => (
        <li key={key} data-expected={key} data-hold={urgent ? 'hold' : undefined}>
          <b>{what}</b>
          <span style={{ gridColumn: '2 / -1' }}>{so}</span>
        </li>
      ))}
    </ul>
  );
}
