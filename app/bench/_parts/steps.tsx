'use client';
import type { CSSProperties } from 'react';
import type { CuePhase } from '#lib/bench/cue';
import { see } from '../../_live/selectors';
import { useDisplay, useLive } from '../../_live/use';
import { messages } from '../messages';
import styles from '../work.module.css';
import { useSeen } from './seen';
import { secondsText } from './words';

const AT: Readonly<Partial<Record<CuePhase, number>>> = { settling: 0, 'settling-vessel': 0, offer: 1, lift: 2 };
export const isSteps = (phase: CuePhase): boolean => phase in AT;

/** What happens next without touching: settling, accepted, lifted, the next one. */
export function Steps() {
  const { phase } = useSeen();
  const settle = useLive(see.settle);
  const left = useLive(see.acceptsIn);
  const of = useLive(see.acceptsOf);
  const vessel = useLive(see.vessel);
  const { locale } = useDisplay();
  const at = phase === null ? undefined : AT[phase];
  if (at === undefined) return null;
  const { steps } = messages;
  const done = at === 0 ? (settle ?? 0) / 1000 : left === null || of === null || of === 0 ? 0 : 1 - left / of;
  const list = [
    { name: steps.settling, sub: '' },
    { name: steps.accepts, sub: at !== 1 ? '' : left === null ? steps.cancel : steps.seconds(secondsText(left, locale)) },
    { name: steps.lift, sub: steps.lifted(vessel?.plan.name ?? '') },
    { name: steps.moves, sub: '' },
  ];
  return (
    <ol className={styles['steps']} style={{ '--done': done } as CSSProperties}>
      {list.map(({ name, sub }, index) => (
        <li key={name} data-step={index === at ? 'doing' : index < at ? 'done' : 'todo'} aria-current={index === at ? 'step' : undefined}>
          <b>{name}</b>
          <span>{sub}</span>
        </li>
      ))}
    </ol>
  );
}
