'use client';
import type { CSSProperties } from 'react';
import { massText } from '#lib/units/format';
import type { LiveState } from '../../_live/store';
import { useDisplay, useLive } from '../../_live/use';
import { barsMessages } from '../messages-bars';
import styles from '../bench.module.css';
import { barName, barsCue, barsScale } from './bars-shown';
import { ScaleSaid } from './truth';

/** What to do, or why nothing is taken by itself. */
export function BarsMeaning() {
  const text = useLive((state) => {
    const cue = barsCue(state);
    if (cue === null) return barsMessages.chooseTeach;
    return cue.why === null ? barsMessages.phases[cue.phase].what : barsMessages.why[cue.why];
  });
  return (
    <div key={text} className={styles['meaning']} style={{ '--long': Math.max(24, text.length) } as CSSProperties}>
      <b>{text}</b>
    </div>
  );
}

/** What was taken last, what this one should about weigh, and whether the scale is telling the truth. */
export function BarsSide() {
  const display = useDisplay();
  const say = (state: LiveState, mass: number): string => massText(Math.round(mass), display, barsScale(state)?.division ?? null);
  const last = useLive((state) => {
    const cue = barsCue(state);
    return cue?.last == null ? '' : barsMessages.last(barName({ ...cue, bar: cue.last.bar, done: cue.done - 1 }), say(state, cue.last.net));
  });
  const expected = useLive((state) => {
    const cue = barsCue(state);
    return cue?.expected == null ? '' : barsMessages.expected(say(state, cue.expected.low), say(state, cue.expected.high));
  });
  return (
    <div className={styles['side']}>
      <div className={styles['drawing']}>
        <p key={last} className={styles['lot']} data-last="">
          {last}
        </p>
        <p key={expected} className={styles['fact']}>
          {expected}
        </p>
      </div>
      <div className={styles['truth']}>
        <ScaleSaid look={barsScale} />
      </div>
    </div>
  );
}
