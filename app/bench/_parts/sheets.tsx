'use client';
import { useControls } from './controls';
import { FirstAid } from './first-aid';
import { LateSheet } from './late';
import { More } from './more';

/** The open sheet. First aid comes with the page itself. */
export function Sheets() {
  const sheet = useControls((state) => state.sheet);
  if (sheet === 'none') return null;
  if (sheet === 'more') return <More />;
  if (sheet === 'first-aid') return <FirstAid />;
  return <LateSheet sheet={sheet} />;
}
