'use client';
import type { ReactNode } from 'react';
import { see } from '../../_live/selectors';
import { useDisplay, useLive } from '../../_live/use';
import { showIn } from './words';
import { temperatureMessages } from '../messages-temperatures';
import styles from '../work.module.css';
import { makingRows } from './expected';
import type { ExpectedRow } from './expected';

/** Above it lye that is being made steams, thousandths of a degree: common practice, no source. */
const STEAMS = 60_000;

/** Before hydroxide goes into its liquid: how hot that gets and how to start. Beside the precautions, where there is room. */
export function Making() {
  const rows = useFigures();
  return (
    <ul className={styles['holds']}>
      {rows.map(({ key, what, so, urgent }) => (
        <li key={key} data-expected={key} data-hold={urgent ? 'hold' : undefined} style={{ gridTemplateColumns: '1fr 1.4fr' }}>
          <b>{what}</b>
          <span>{so}</span>
        </li>
      ))}
    </ul>
  );
}

/** What hot lye asks for, as the last of the precautions; `whole`: and how hot it gets, where there is no room beside them. */
export function MakingCautions({ whole }: { readonly whole: boolean }): ReactNode {
  const [figures, cautions] = [useFigures(), useCautions()];
  return [...(whole ? figures : []), ...cautions].map(({ key, what, so }) => (
    <li key={key} data-expected={key}>
      {what}: {so}
    </li>
  ));
}

/** `null`: none is being made. */
const useMaking = () => useLive((state) => see.forecast(state)?.making ?? null);

const useFigures = (): readonly ExpectedRow[] => {
  const display = useDisplay();
  const making = useMaking();
  return making === null || making.found !== null ? [] : makingRows(making, { display });
};

const useCautions = (): readonly ExpectedRow[] => {
  const display = useDisplay();
  const making = useMaking();
  const milk = useLive(({ batch }) => batch?.plan.joining.milkLimit ?? null);
  if (making === null || making.found !== null) return [];
  const { hot, steams, scorches, limit } = temperatureMessages.making;
  const steaming = making.atMost.value + 2 * making.atMost.u > STEAMS;
  return [
    ...(steaming ? [{ key: 'hot', what: hot, so: steams, urgent: true }] : []),
    ...(milk === null ? [] : [{ key: 'milk', what: scorches, so: limit(showIn(display, null).temperature(milk)), urgent: true }]),
  ];
};
