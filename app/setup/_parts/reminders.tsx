'use client';
import { useState, useSyncExternalStore } from 'react';
import { useStore } from 'zustand';
import { canRemind, reminding, startReminding, stopReminding } from '../../_ui/due/remind';
import type { CanRemind } from '../../_ui/due/remind';
import { messages } from '../messages-remind';
import { on } from './classes';

const never = (): (() => void) => () => undefined;

/** Whether this screen tells of logs that can leave their mould, and why it may not. */
export function Reminders() {
  const [, looked] = useState(0);
  const can = useSyncExternalStore<CanRemind>(never, canRemind, () => 'absent');
  const yes = useStore(reminding);
  const ask = async (): Promise<void> => {
    await startReminding();
    looked((times) => times + 1);
  };
  return (
    <>
      <h3 className={on('minor gap')}>{messages.title}</h3>
      <p className={on('reading')}>{can === 'can' && yes ? messages.isOn : messages.can[can]}</p>
      {can === 'can' ? (
        <div className={on('acts')}>
          <button type="button" className={on('act')} onClick={() => (yes ? stopReminding() : void ask())}>
            {yes ? messages.stop : messages.start}
          </button>
        </div>
      ) : null}
    </>
  );
}
