'use client';
import { useRouter } from 'next/navigation';
import { useCallback } from 'react';
import type { Route } from 'next';
import type { BarsCue } from '#lib/bench/bars/types';
import type { BenchKey } from '../../_live/keys';
import { see } from '../../_live/selectors';
import { live, liveStore, useLive } from '../../_live/use';
import { HoldPress, Press } from '../../_ui/press';
import { messages } from '../messages';
import { barsMessages } from '../messages-bars';
import styles from '../bench.module.css';
import { barsCue } from './bars-shown';
import { act, controls, holdWords, intend, silence } from './controls';
import { FirstAidPress, SoundPress } from './hands';
import { screenLabel } from './label';
import { useSeen } from './seen';

const takeControl = (): void => void live().lease('take', screenLabel());

/** What a press would do now; `null`: nothing. */
const goOnOf = (cue: BarsCue): string | null => {
  const { goOn } = barsMessages;
  if (cue.phase === 'offer' || (cue.phase === 'ask' && cue.why !== 'used-up')) return goOn.take;
  if (cue.phase === 'changed') return goOn.again;
  if (cue.phase === 'empty' && cue.why === null) return goOn.empty;
  return cue.phase === 'done' ? goOn.end : null;
};

const backOf = (cue: BarsCue): string | null => {
  const { back } = barsMessages;
  if (cue.phase === 'offer' || cue.phase === 'ask') return back.not;
  if (cue.phase === 'changed') return back.keep;
  return cue.done > 0 ? back.undo : null;
};

/** Keys and pedal on this page: go on and back mean what the round shows, and a choice of bars is stepped as cards are; its end leaves. */
export const usePressBars = (leave: Route): ((key: BenchKey, hold: boolean) => void) => {
  const router = useRouter();
  return useCallback(
    (key: BenchKey, hold: boolean) => {
      const cue = barsCue(liveStore.getState());
      if (key === 'silence') return silence();
      if (cue === null) return controls.getState().local === null ? undefined : act(key, hold);
      if (key === 'go-on' && cue.phase === 'done') return end(() => router.push(leave));
      return intend({ kind: 'bars-press', key, step: cue.step });
    },
    [router, leave],
  );
};

const end = (then: () => void): void => {
  intend({ kind: 'bars-end' });
  then();
};

/** No temperature matters to bars; the cells stay where they are. */
const NO_EDGE = { border: 0 };

/** The foot: back, sound, first aid, the end of the round, go on, each where it always is. */
export function BarsHands({ leave: to, aid, onAid }: { readonly leave: Route; readonly aid: boolean; readonly onAid: () => void }) {
  const router = useRouter();
  const press = usePressBars(to);
  const { offline } = useSeen();
  const mine = useLive(see.mine);
  const role = useLive(see.role);
  const free = useLive(see.free);
  const running = useLive((state) => barsCue(state) !== null);
  const back = useLive((state) => {
    const cue = barsCue(state);
    return cue === null ? barsMessages.back.leave : backOf(cue);
  });
  const goOn = useLive((state) => {
    const cue = barsCue(state);
    return cue === null ? null : goOnOf(cue);
  });
  const asked = useLive((state) => ['ask', 'changed', 'done'].includes(barsCue(state)?.phase ?? ''));
  const leave = (): void => router.push(to);
  const can = !offline && mine;
  return (
    <div className={styles['hands']}>
      {aid ? (
        <Press className={styles['back']} name={messages.press.close} onTap={onAid} loud />
      ) : (
        <Press
          className={styles['back']}
          name={messages.press.back}
          sub={back ?? undefined}
          onTap={running ? (can && back !== null ? () => press('back', false) : undefined) : leave}
        />
      )}
      <SoundPress />
      <div className={styles['temp']} style={NO_EDGE} />
      <div className={styles['temp']} style={NO_EDGE} data-use="oils" />
      <FirstAidPress onTap={onAid} />
      <Press
        className={styles['more']}
        {...barsMessages.end}
        onTap={can && running ? () => end(leave) : undefined}
        data={{ 'data-end': '' }}
      />
      {!offline && !mine && role === 'maker' ? (
        free ? (
          <Press className={styles['go']} name={messages.press.control} sub={messages.watching.free} onTap={takeControl} loud />
        ) : (
          <HoldPress
            className={styles['go']}
            name={messages.press.control}
            sub={messages.press.controlSub}
            words={holdWords}
            onHeld={takeControl}
          />
        )
      ) : (
        <Press
          className={styles['go']}
          name={messages.press.goOn}
          sub={goOn ?? barsMessages.goOn.waits}
          loud={asked}
          onTap={can && goOn !== null ? () => press('go-on', false) : undefined}
          data={{ 'data-go': goOn ?? 'none' }}
        />
      )}
    </div>
  );
}
