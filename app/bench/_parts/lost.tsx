'use client';
import { see } from '../../_live/selectors';
import { useLive } from '../../_live/use';
import { messages } from '../messages';
import styles from '../work.module.css';
import { useSeen } from './seen';

/** A lost instrument, or a lost server: what to do with the hands, and what is safe. */
export function Lost() {
  const { offline, block } = useSeen();
  const batch = useLive(see.batch);
  const link = useLive(see.link);
  const { lost } = messages;
  const { steps } = lost;
  const list = ((): readonly string[] => {
    if (link === 'connecting') return [steps.server, steps.phone];
    if (offline) return [steps.down, steps.server, steps.nothing];
    if (block === null || block === 'lost') return [steps.down, steps.plug, steps.wait];
    if (block === 'late' || block === 'suspect' || block === 'after-stall') return [steps.down, steps.wait];
    return [steps.down, messages.blocks[block].act, steps.goOn];
  })();
  const accepted = Object.values(batch?.lines ?? {}).filter((line) => line.status === 'closed').length;
  return (
    <div key={list.join()} className={styles['lost']}>
      <ol>
        {list.map((step) => (
          <li key={step}>{step}</li>
        ))}
      </ol>
      {batch === null ? null : (
        <div className={styles['safe']}>
          <b>{lost.safe}</b>
          <span>{lost.kept(accepted)}</span>
          {offline ? <span>{lost.unsure}</span> : null}
        </div>
      )}
    </div>
  );
}
