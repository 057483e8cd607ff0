'use client';
import { useEffect } from 'react';
import type { KeyboardEvent as Key, MouseEvent, PointerEvent } from 'react';
import { benchKey, createPedal } from '../../_live/keys';
import { guard } from '../../_live/use';
import { act, controls } from './controls';

/** A key meant for the element that has the keyboard's focus is not the bench's; a pedal's page key presses no button. */
export const isTakenElsewhere = (key: string): boolean =>
  document.activeElement?.matches(/^(Enter| )$/.test(key) ? 'button:focus-visible, a:focus-visible, input' : 'input') === true;

/** Keyboard and pedal: the same three intents as the targets on the glass. `onPress` stays the same while a page is drawn. */
export const useKeys = (onPress: typeof act = act): void =>
  useEffect(() => {
    const pedal = createPedal({
      guard,
      now: () => performance.now(),
      after: (ms, run) => {
        const timer = setTimeout(run, ms);
        return () => clearTimeout(timer);
      },
      onPhase: (phase) => controls.setState({ pedal: phase }),
      onPress,
    });
    const down = (event: KeyboardEvent): void => {
      const key = benchKey(event.key);
      if (key === null || event.ctrlKey || event.altKey || event.metaKey || isTakenElsewhere(event.key)) return;
      event.preventDefault();
      pedal.down(key, event.repeat);
    };
    const up = (event: KeyboardEvent): void => {
      const key = benchKey(event.key);
      if (key !== null) pedal.up(key);
    };
    const cancel = (): void => pedal.cancel();
    window.addEventListener('keydown', down);
    window.addEventListener('keyup', up);
    window.addEventListener('blur', cancel);
    return () => {
      window.removeEventListener('keydown', down);
      window.removeEventListener('keyup', up);
      window.removeEventListener('blur', cancel);
      pedal.cancel();
    };
  }, [onPress]);

let begunIn = -1;

/** Swallows a press that begins within the quiet after waking, reconnecting or a dialog, or that began before it. */
export const swallowing = {
  onPointerDownCapture: (event: PointerEvent): void => {
    begunIn = guard.epoch();
    if (!guard.open()) event.stopPropagation();
  },
  onClickCapture: (event: MouseEvent): void => {
    const finger = event.detail > 0;
    if (guard.open() && (!finger || begunIn === guard.epoch())) return;
    event.stopPropagation();
    event.preventDefault();
  },
  /** A key that stays down presses a target once: a heel or a book on it would press whatever came next, again and again. */
  onKeyDownCapture: (event: Key): void => {
    if (event.repeat && event.key === 'Enter') event.preventDefault();
  },
  /** A finger leaves no keyboard focus behind: the next pedal press would go to the target last tapped. */
  onMouseDown: (event: MouseEvent): void => {
    if (!(event.target instanceof HTMLInputElement)) event.preventDefault();
  },
};
