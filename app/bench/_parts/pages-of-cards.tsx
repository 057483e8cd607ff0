'use client';
import { useState } from 'react';
import { LocalCards } from './cards';
import type { LocalCard } from './cards';

/** As many cards as stand on the screen large enough for a glove. */
export const MOST_CARDS = 6;

interface PagesOfCardsProps {
  readonly cards: readonly LocalCard[];
  /** The name of the card that turns the page. */
  readonly more: string;
  readonly pageWords: (page: number, of: number) => string;
  readonly back: () => void;
}

/** Any number of cards: where they do not all fit, the last one turns the page, by the same keys and pedal as the others. */
export function PagesOfCards({ cards, more, pageWords, back }: PagesOfCardsProps) {
  const [page, setPage] = useState(0);
  if (cards.length <= MOST_CARDS) return <LocalCards cards={cards} back={back} />;
  const each = MOST_CARDS - 1;
  const pages = Math.ceil(cards.length / each);
  const at = Math.min(page, pages - 1);
  const next = (at + 1) % pages;
  const turn = { key: `page ${next}`, name: more, sub: pageWords(next + 1, pages), take: () => setPage(next) };
  return <LocalCards cards={[...cards.slice(at * each, (at + 1) * each), turn]} back={at === 0 ? back : () => setPage(at - 1)} />;
}
