import { drawnOf } from '#lib/work/orders/wraps';
import type { Drawn } from '#lib/work/orders/wraps';
import type { Goods } from '#lib/work/orders/documents';

const DAY_MS = 86_400_000;

/** What goes around a bar of the invented workshop. */
export const BAND = { id: 'paper-band', name: 'Paper band' } as const;

/** Bands came twice; the second parcel was opened so many days ago. */
const [FIRST, SECOND] = ['B 1', 'B 2'] as const;
const OPENED = 45;
export const bandsOpenAt = (wall: number, now: number): string => (wall < now - OPENED * DAY_MS ? FIRST : SECOND);

/** Pieces of each that are left. */
const LEFT = { [FIRST]: 0, [SECOND]: 131 } as const;

/** As they are bought, and what came: what its bars took, and what is left. */
export const bandsFor = (drawn: Drawn): Goods => ({
  id: BAND.id,
  kind: 'wrap',
  name: BAND.name,
  pack: '200',
  price: '11',
  days: 12,
  perBar: '1',
  onHand: null,
  lots: ([FIRST, SECOND] as const).map((mark) => ({ mark, onHand: drawnOf(drawn, BAND.id, mark) + LEFT[mark], drawn: 0, price: null })),
});
