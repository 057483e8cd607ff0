'use client';
import { massText } from '#lib/units/format';
import { see } from '../../_live/selectors';
import { useDisplay, useLive } from '../../_live/use';
import { Press } from '../../_ui/press';
import { sheetMessages } from '../messages-sheets';
import styles from '../work.module.css';
import { openSheet } from './controls';
import { Pouring } from './pouring';

const words = sheetMessages.portions;
/** How many portions were poured, the newest of them, what is left in the pot, and the way to type one. All of them are in the review. */
export function Portions() {
  const moulds = useLive(({ batch }) => batch?.plan.moulds !== undefined);
  return moulds ? <Pouring /> : <OfThePot />;
}

function OfThePot() {
  const display = useDisplay();
  const batch = useLive(see.batch);
  const parts = batch?.parts ?? [];
  const pot = Object.values(batch?.vessels ?? {}).find(({ state }) => state === 'joined' || state === 'portioned');
  const last = parts.at(-1);
  return (
    <>
      <div className={styles['next']}>
        <span className={styles['lead']}>{words.lead}</span>
        <b>{parts.length === 0 ? words.none : words.count(parts.length)}</b>
        <span key={pot?.contents} className={styles['sub']}>
          {(last === undefined ? '' : words.last(massText(last.mass, display), last.byHand)) +
            (pot === undefined ? '' : words.left(massText(pot.contents, display, 1000)))}
        </span>
      </div>
      <Press className={styles['aid']} name={words.type} onTap={() => openSheet('keypad')} />
    </>
  );
}
