'use client';
import { asideMark } from '#lib/work/batch/remedy/aside-mark';
import { useLive } from '../../_live/use';
import styles from '../bench.module.css';
import { waysMessages } from '../messages-ways';

/** Where what is taken out goes; another element for each, so that nothing moves. */
export function Whither() {
  const text = useLive(({ batch }) => {
    const [act] = batch?.toDo ?? [];
    if (batch === null || act === undefined) return null;
    const { aside, caustic, ...to } = waysMessages.whither;
    if (act.kind === 'split-off') return aside(asideMark(batch));
    if ('caustic' in act && act.caustic) return caustic;
    return 'to' in act ? to[act.to] : to.bottle;
  });
  return text === null ? null : (
    <span key={text} className={styles['fact']}>
      {text}
    </span>
  );
}
