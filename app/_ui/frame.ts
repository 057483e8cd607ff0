'use client';
import { useSyncExternalStore } from 'react';

/** Which of the three bench frames the screen gives room for. The same two questions as in tokens.css. */
export type Frame = 'wide' | 'small' | 'phone';

const PHONE = '(max-aspect-ratio: 4/5)';
const SMALL = '(max-height: 599px)';

const watch = (changed: () => void): (() => void) => {
  const queries = [PHONE, SMALL].map((query) => matchMedia(query));
  for (const query of queries) query.addEventListener('change', changed);
  return () => {
    for (const query of queries) query.removeEventListener('change', changed);
  };
};
const now = (): Frame => (matchMedia(PHONE).matches ? 'phone' : matchMedia(SMALL).matches ? 'small' : 'wide');

export const useFrame = (): Frame => useSyncExternalStore(watch, now, () => 'wide');
