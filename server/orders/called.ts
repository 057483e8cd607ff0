import type { Order } from '#lib/work/orders/documents';
import type { Shelf } from '#lib/work/shelf/shelf';

/** An order or market as it was last called, put away or not; one that nobody kept stands as the record has it. */
export const orderName = (shelf: Shelf, id: string): string => {
  const last = shelf.order.get(id)?.versions.findLast(({ document }) => document !== null)?.document;
  return (last as Order | null | undefined)?.name ?? id;
};
