import { createStore } from 'zustand/vanilla';
import { heldOf } from '../held';

/** Whether this browser shows notices of this page: secure pages only (Notifications API), and only where a person allows it. */
export type CanRemind = 'can' | 'plain-http' | 'denied' | 'absent';

export const canRemind = (): CanRemind => {
  if (!window.isSecureContext) return 'plain-http';
  if (!('Notification' in window)) return 'absent';
  return Notification.permission === 'denied' ? 'denied' : 'can';
};

const held = heldOf('potwatch.', (value) => (typeof value === 'boolean' ? value : null));
const KEY = 'remind';

/** Whether this screen was asked to remind. Kept beside the other preferences and apart from them: the bench has no use for it. */
export const reminding = createStore<boolean>(() => false);
export const recallReminding = (): void => reminding.setState(held.read(KEY) ?? false, true);

const keep = (yes: boolean): void => {
  reminding.setState(yes, true);
  held.write(KEY, yes);
};

/** Asks the browser, which asks the person. */
export const startReminding = async (): Promise<void> => keep((await Notification.requestPermission()) === 'granted');
export const stopReminding = (): void => keep(false);

/** One notice; a browser that wants a worker of its own for it shows none, and the page's count stands all the same. */
export const remind = (tag: string, title: string, body: string): void => {
  if (!reminding.getState() || canRemind() !== 'can' || Notification.permission !== 'granted') return;
  try {
    void new Notification(title, { tag, body });
  } catch {
    // Some tablets allow it and have no such thing.
  }
};
