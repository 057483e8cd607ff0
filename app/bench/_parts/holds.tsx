'use client';
import type { JoiningCue } from '#lib/bench/cue';
import { see } from '../../_live/selectors';
import { useDisplay, useLive } from '../../_live/use';
import { messages } from '../messages';
import styles from '../work.module.css';
import { PotLine } from './pot-line';
import { showIn } from './words';

/** Everything that holds joining, or advises against it, with its figure and its limit. */
export function Holds() {
  const holds = useLive(see.joining)?.holds ?? [];
  const computed = useLive(({ batch }) => batch?.plan.basis?.poured !== undefined);
  const show = showIn(useDisplay(), null);
  const figures = ({ reason, value, limit }: JoiningCue['holds'][number]): string => {
    if (value === null || limit === null) return '';
    if (reason === 'may-be-lye-heavy') return messages.joining.asLowAs(show.share(value));
    const write = reason === 'apart' ? show.difference : show.temperature;
    return messages.joining.figures(write(value), write(limit));
  };
  return (
    <ul className={styles['holds']}>
      {holds.map((hold) => (
        <li key={hold.reason} data-hold={hold.overridden ? 'overridden' : hold.level}>
          <b>{messages.holds[hold.reason]}</b>
          <span>{figures(hold)}</span>
          <span>{hold.overridden ? messages.joining.overridden : hold.level === 'advise' ? messages.joining.advice : ''}</span>
        </li>
      ))}
      {computed ? (
        <li>
          <PotLine />
        </li>
      ) : null}
    </ul>
  );
}
