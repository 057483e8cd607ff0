'use client';
import { Fragment } from 'react';
import type { Card } from '#lib/bench/cue';
import { see } from '../../_live/selectors';
import { useDisplay, useLive } from '../../_live/use';
import { waysMessages as words } from '../messages-ways';
import styles from '../ways.module.css';
import { OneCard, useDialog } from './cards';
import { intend } from './controls';
import { wayWords } from './way-words';
import { showIn } from './words';

/** The ways out, the recommended one first and told apart, each with what comes of it in numbers. Taken with a hold. */
export function Ways() {
  const cards = useLive(see.cards);
  // Another set of cards is another element: what stands elsewhere has not moved.
  const set = cards.map(({ code }) => code).join(' ');
  useDialog(set);
  const [first, ...others] = cards;
  return (
    <div key={set} className={styles['ways']}>
      {first === undefined ? null : <Way card={first} index={0} />}
      <div className={styles['others']}>
        {others.map((card, at) => (
          <Way key={card.code} card={card} index={at + 1} />
        ))}
      </div>
    </div>
  );
}

/** A figure stays with its unit. */
const kept = (text: string): string => text.replaceAll(/(\d) (?=%|\S{1,2}\b)/g, '$1\u00a0');

function Way({ card, index }: { readonly card: Card; readonly index: number }) {
  const selected = useLive(see.selected);
  const division = useLive(see.division);
  const batch = useLive(see.batch);
  const show = showIn(useDisplay(), division);
  const { name, figures, moves, notes, why } = wayWords(card, batch, show);
  return (
    <OneCard
      name={kept(name)}
      sub={figures.length === 0 ? undefined : kept(figures.join(', '))}
      card={card}
      current={index === selected}
      onTake={(hold) => intend({ kind: 'take-card', card: index, code: card.code, hold })}
      band={why === null ? undefined : <span className={styles['band']}>{words.recommended(why)}</span>}
      more={
        <>
          {moves.map((move) => (
            <Fragment key={move}>
              {' '}
              <span className={styles['moves']}>{kept(move)}</span>
            </Fragment>
          ))}
          <small>{kept(notes.join(', '))}</small>
        </>
      }
    />
  );
}
