'use client';
import { massText } from '#lib/units/format';
import { see } from '../../_live/selectors';
import { useDisplay, useLive } from '../../_live/use';
import { Press } from '../../_ui/press';
import { sheetMessages } from '../messages-sheets';
import styles from '../work.module.css';
import { openSheet } from './controls';

const words = sheetMessages.portions;
/** Of the newest there is room for these; all of them are in the review. */
const NEWEST = 3;

/** The portions poured so far, the way to type one, and what is left in the pot. */
export function Portions() {
  const display = useDisplay();
  const batch = useLive(see.batch);
  const parts = batch?.parts ?? [];
  const pot = Object.values(batch?.vessels ?? {}).find(({ state }) => state === 'joined' || state === 'portioned');
  const hidden = parts.length - NEWEST;
  return (
    <>
      <div className={styles['next']}>
        <span className={styles['lead']}>{words.lead}</span>
        <b>{parts.length === 0 ? words.none : words.count(parts.length)}</b>
        <span key={pot?.contents} className={styles['amount']}>
          {pot === undefined ? '' : massText(pot.contents, display, 1000)}
        </span>
        <span className={styles['sub']}>
          {parts
            .slice(-NEWEST)
            .map(({ mass, byHand }) => words.one(massText(mass, display), byHand))
            .join(', ') + (hidden > 0 ? words.earlier(hidden) : '')}
        </span>
      </div>
      <Press className={styles['aid']} name={words.type} onTap={() => openSheet('keypad')} />
    </>
  );
}
