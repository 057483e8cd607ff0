'use client';
import type { CSSProperties } from 'react';
import { massText } from '#lib/units/format';
import { useDisplay, useLive } from '../../_live/use';
import { barsMessages } from '../messages-bars';
import styles from '../bench.module.css';
import { barName, barsCue, barsScale } from './bars-shown';
import { ScaleSaid } from './truth';

/** What to do, and why nothing is taken by itself where it is not. */
export function BarsMeaning() {
  const display = useDisplay();
  const phase = useLive((state) => barsCue(state)?.phase ?? null);
  const why = useLive((state) => barsCue(state)?.why ?? null);
  const expected = useLive((state) => {
    const [cue, scale] = [barsCue(state), barsScale(state)];
    if (cue?.expected == null) return '';
    const say = (mass: number): string => massText(Math.round(mass), display, scale?.division ?? null);
    return barsMessages.expected(say(cue.expected.low), say(cue.expected.high));
  });
  const text = phase === null ? barsMessages.chooseTeach : why === null ? barsMessages.phases[phase].what : barsMessages.why[why];
  return (
    <div key={text} className={styles['meaning']} style={{ '--long': Math.max(24, text.length) } as CSSProperties}>
      <b>{text}</b>
      {expected === '' ? null : <span className={styles['fact']}>{expected}</span>}
    </div>
  );
}

/** What was taken last, and whether the scale is telling the truth. */
export function BarsSide() {
  const display = useDisplay();
  const last = useLive((state) => {
    const [cue, scale] = [barsCue(state), barsScale(state)];
    if (cue?.last == null) return '';
    return barsMessages.last(barName({ bar: cue.last.bar, done: cue.done - 1 }), massText(cue.last.net, display, scale?.division ?? null));
  });
  return (
    <div className={styles['side']}>
      <div className={styles['drawing']}>
        <p className={styles['lot']} data-last="">
          {last}
        </p>
      </div>
      <div className={styles['truth']}>
        <ScaleSaid look={barsScale} />
      </div>
    </div>
  );
}
