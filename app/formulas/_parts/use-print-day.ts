'use client';
import { useEffect, useState } from 'react';
import { flushSync } from 'react-dom';

/** Wall time at which the page was last printed; before that, at which it was opened. A page may stand open for days. */
export const usePrintDay = (): number => {
  const [day, setDay] = useState(() => Date.now());
  useEffect(() => {
    // At once: the paper is drawn as soon as the listeners have answered.
    const printing = (): void => flushSync(() => setDay(Date.now()));
    addEventListener('beforeprint', printing);
    return () => removeEventListener('beforeprint', printing);
  }, []);
  return day;
};
