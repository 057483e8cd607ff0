'use client';
import type { BatchListRow } from '#lib/protocol/http';
import { startMessages } from '../messages-start';
import type { LocalCard } from './cards';
import { intend } from './controls';
import { PagesOfCards } from './pages-of-cards';

/** More parked batches than these share one card at the start, so that the plans stay near. */
export const MOST_PARKED = 2;

/** Takes one up. */
export const parkedCard = (row: BatchListRow): LocalCard => ({
  key: `parked ${row.id}`,
  name: startMessages.parked(row.mark),
  sub: row.name,
  take: () => intend({ kind: 'take-up', batch: row.id, note: '' }),
});

/** Every parked batch, page after page. */
export function Parked({ rows, onLeave }: { readonly rows: readonly BatchListRow[]; readonly onLeave: () => void }) {
  const { moreParked, page } = startMessages;
  return <PagesOfCards cards={rows.map(parkedCard)} more={moreParked} pageWords={page} back={onLeave} />;
}
