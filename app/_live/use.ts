'use client';
import { useEffect, useSyncExternalStore } from 'react';
import { useStore } from 'zustand';
import type { Display } from '#lib/units/display';
import { useShallow } from 'zustand/react/shallow';
import { awake, keepAwake } from './awake';
import type { Awake } from './awake';
import type { Live } from './live';
import { displayOf, preferences } from './preferences';
import type { Preferences } from './preferences';
import { drawing, guard, liveStore, sound, startPage, temperatures } from './start';
import type { Speaker, Voice } from './speech';
import type { LiveState } from './store';
import { followTones } from './tones';

/** One primitive, or one object the store shares between frames. A selector that builds a new value each time would redraw without end. */
export const useLive = <T>(select: (state: LiveState) => T): T => useStore(drawing, select);

export const usePreference = <T>(select: (state: Preferences) => T): T => useStore(preferences, select);
export const useDisplay = (): Display => useStore(preferences, useShallow(displayOf));
export const useSound = () => useStore(sound.store);
export const useAwake = (): Awake => useStore(awake, ({ state }) => state);

/** The connection, for what a person does. Called from handlers, never while drawing. */
export const live = (): Live => startPage().live;
export const speaker = (): Speaker => startPage().speaker;

const noVoiceYet = (): Voice => 'unheard';
const watchVoice = (changed: () => void): (() => void) => startPage().speaker.watch(changed);
export const useVoice = (): Voice => useSyncExternalStore(watchVoice, () => startPage().speaker.voice(), noVoiceYet);

/** Connects the page. `lead`: the name this screen goes by where it leads the bench; without it the page only looks. */
export const useConnection = (lead: string | null): void => {
  useEffect(() => {
    const { live } = startPage();
    live.leadAs(lead);
    return () => live.leadAs(null);
  }, [lead]);
};

/** The tone of the pour and its signals, while this page is shown. */
export const useTones = (): void => useEffect(() => followTones(), []);

/** Keeps the screen on while this page is shown. */
export const useAwakeScreen = (): void => useEffect(() => keepAwake(), []);

export { guard, liveStore, sound, temperatures };
