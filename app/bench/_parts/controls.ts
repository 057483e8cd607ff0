'use client';
import { createStore } from 'zustand/vanilla';
import { useStore } from 'zustand';
import type { IntentWant } from '#lib/protocol/intent';
import { live, sound } from '../../_live/use';
import type { BenchKey } from '../../_live/keys';
import { messages } from '../messages';

/** Sheets over the side of the screen. Opening one moves nothing. */
export type Sheet =
  | 'none'
  | 'more'
  | 'keypad'
  | 'correct'
  | 'move'
  | 'lose'
  | 'wrong'
  | 'park'
  | 'abandon'
  | 'close'
  | 'settings'
  | 'scene'
  | 'first-aid'
  | 'pair'
  | 'people'
  | 'lot'
  | 'pot'
  | 'pour';

/** A choice that only this page knows of: lots, plans. Stepped by the same three intents as the conductor's cards. */
export interface LocalChoice {
  readonly count: number;
  readonly take: (index: number) => void;
  /** A card as it is read aloud when it is stepped to. */
  readonly said: (index: number) => string;
  readonly back: () => void;
}

interface Controls {
  readonly sheet: Sheet;
  readonly local: LocalChoice | null;
  readonly selected: number;
  /** What the local choice asks, in the place of the name. */
  readonly asking: { readonly what: string; readonly how: string } | null;
  /** A pedal or key is down. */
  readonly pedal: { readonly key: BenchKey; readonly full: boolean } | null;
}

export const controls = createStore<Controls>(() => ({ sheet: 'none', local: null, selected: -1, asking: null, pedal: null }));
export const useControls = <T>(select: (state: Controls) => T): T => useStore(controls, select);

export const openSheet = (sheet: Sheet): void => controls.setState({ sheet });
export const closeSheet = (): void => controls.setState({ sheet: 'none' });

export const intend = (want: IntentWant): void => void live().intend(want);
export const press = (key: BenchKey, hold: boolean): void => intend({ kind: 'press', key, hold });

export const holdWords = {
  letGo: messages.press.letGo,
  armed: messages.press.armed,
  confirm: messages.press.confirm,
};

const BESIDE: ReadonlySet<Sheet> = new Set(['scene', 'first-aid', 'settings']);

/** One of the three intents, from a key or a pedal, to whatever it means on this screen now. */
export const act = (key: BenchKey, hold: boolean): void => {
  const { sheet, local, selected } = controls.getState();
  if (key === 'silence') return silence();
  if (sheet !== 'none' && key === 'back') return closeSheet();
  // A sheet that asks for something of its own keeps the keys; beside the others the bench goes on.
  if (sheet !== 'none' && !BESIDE.has(sheet)) return undefined;
  if (local === null) return press(key, hold);
  if (key === 'back') return selected > 0 ? controls.setState({ selected: selected - 1 }) : local.back();
  if (hold && selected >= 0) return local.take(selected);
  return controls.setState({ selected: (selected + 1) % local.count });
};

/** Hushes this page at once, and tells the server, which tells every other screen. It is not an acknowledgement. */
export const silence = (): void => {
  sound.hush();
  press('silence', false);
};
