'use client';
import { byHandWords } from '../messages-cards';
import { LocalCards } from './cards';
import { openSheet } from './controls';

/** A line from a scale without a wire, or from none: it is typed. */
export function ByHand() {
  return <LocalCards cards={[{ key: 'type', ...byHandWords, take: () => openSheet('keypad') }]} back={() => undefined} />;
}
