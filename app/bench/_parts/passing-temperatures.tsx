'use client';
import { TemperatureStrip } from '../../_charts/temperature-strip';
import { see } from '../../_live/selectors';
import { useDisplay, useLive } from '../../_live/use';
import { messages } from '../messages';
import styles from '../work.module.css';
import { inPassing } from './expected';

/** The two temperatures in passing, while something is weighed. */
export function PassingTemperatures() {
  const display = useDisplay();
  const lye = useLive((state) => see.lye(state)?.value ?? null);
  const oils = useLive((state) => see.oils(state)?.value ?? null);
  const window = useLive(({ batch }) => batch?.plan.joining.window ?? null);
  const meet = useLive((state) => inPassing(see.forecast(state)?.meeting ?? null));
  if (window === null || (lye === null && oils === null)) return null;
  return (
    <div className={styles['beside']}>
      <TemperatureStrip lye={lye} oils={oils} window={window} display={display} words={messages.temperatures} above={meet} />
      <span className="unseen">{meet}</span>
    </div>
  );
}
