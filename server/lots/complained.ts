import { documentsOf } from '#lib/work/shelf/context';
import type { Shelf } from '#lib/work/shelf/shelf';
import type { Complaint } from '#lib/work/lots/complaint';

/** Why bars of a batch are held: the newest complaint of it that stands; `null` without one. */
export const complained = (shelf: Shelf, batch: string): string | null => {
  const of = documentsOf<Complaint>(shelf, 'complaint').findLast((one) => one.batch === batch || one.also?.includes(batch) === true);
  return of === undefined ? null : holdReason(of.day);
};

/** As it stands on held bars. */
export const holdReason = (day: string): string => `Complaint ${day}`;
