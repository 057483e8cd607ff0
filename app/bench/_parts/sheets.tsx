'use client';
import { useControls } from './controls';
import { FirstAid } from './first-aid';
import { LateSheet } from './late';

/** The open sheet. First aid comes with the page itself. */
export function Sheets() {
  const sheet = useControls((state) => state.sheet);
  if (sheet === 'none') return null;
  if (sheet === 'first-aid') return <FirstAid />;
  return <LateSheet sheet={sheet} />;
}
