'use client';
import { useEffect, useState } from 'react';

/** Longer than any tablet takes to read two preloaded files; after it the text is shown in whatever face there is. */
const PATIENCE_MS = 1_500;

/** Whether the page may be drawn: once its faces are there, so that no word is first set in another one and then moves. */
export const useFaces = (): boolean => {
  const [ready, setReady] = useState(false);
  useEffect(() => {
    const show = (): void => setReady(true);
    void document.fonts.ready.then(show);
    const timer = setTimeout(show, PATIENCE_MS);
    return () => clearTimeout(timer);
  }, []);
  return ready;
};
