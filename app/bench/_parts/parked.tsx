'use client';
import type { BatchListRow } from '#lib/protocol/http';
import { startMessages } from '../messages-start';
import type { LocalCard } from './cards';
import { PagesOfCards } from './pages-of-cards';

/** More parked batches than these share one card at the start, so that the plans stay near. */
export const MOST_PARKED = 2;

export const parkedCard = (row: BatchListRow, onTake: (row: BatchListRow) => void): LocalCard => ({
  key: `parked ${row.id}`,
  name: startMessages.parked(row.mark),
  sub: row.name,
  take: () => onTake(row),
});

interface ParkedProps {
  readonly rows: readonly BatchListRow[];
  readonly onTake: (row: BatchListRow) => void;
  readonly onLeave: () => void;
}

/** Every parked batch, page after page. */
export function Parked({ rows, onTake, onLeave }: ParkedProps) {
  const { moreParked, page } = startMessages;
  return <PagesOfCards cards={rows.map((row) => parkedCard(row, onTake))} more={moreParked} pageWords={page} back={onLeave} />;
}
