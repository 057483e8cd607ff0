import { createStore } from 'zustand/vanilla';

/**
 * Whether the screen stays on by itself. `plain-http`: the browser offers a wake lock to secure pages only (W3C Screen Wake Lock, "Security
 * considerations"); `refused`: it offers one and said no, as on low battery.
 */
export type Awake = 'asking' | 'awake' | 'plain-http' | 'unsupported' | 'refused';

export const awake = createStore<{ readonly state: Awake }>(() => ({ state: 'asking' }));

const set = (state: Awake): void => {
  if (awake.getState().state !== state) awake.setState({ state });
};

const ask = async (): Promise<void> => {
  if (!('wakeLock' in navigator)) return set(window.isSecureContext ? 'unsupported' : 'plain-http');
  if (document.visibilityState !== 'visible') return undefined;
  try {
    const lock = await navigator.wakeLock.request('screen');
    set('awake');
    // Lost whenever the page is hidden; asked for again when it is shown.
    lock.addEventListener('release', () => set('asking'), { once: true });
  } catch {
    set('refused');
  }
  return undefined;
};

const askAgain = (): void => void ask();

/** Keeps the screen on while the page is shown. Returns the way to stop asking. */
export const keepAwake = (): (() => void) => {
  askAgain();
  document.addEventListener('visibilitychange', askAgain);
  // A refusal for want of a gesture or of power may be answered otherwise later.
  const retry = (): void => {
    if (awake.getState().state === 'refused') askAgain();
  };
  window.addEventListener('pointerup', retry);
  return () => {
    document.removeEventListener('visibilitychange', askAgain);
    window.removeEventListener('pointerup', retry);
  };
};
