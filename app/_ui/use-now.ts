'use client';
import { useSyncExternalStore } from 'react';

const EVERY_MS = 5_000;
const watch = (changed: () => void): (() => void) => {
  const timer = setInterval(changed, 1_000);
  return () => clearInterval(timer);
};
const now = (): number => Math.floor(Date.now() / EVERY_MS) * EVERY_MS;

/** This screen's wall clock, for labels; `null` while the page is only its exported self. */
export const useNow = (): number | null => useSyncExternalStore<number | null>(watch, now, () => null);
