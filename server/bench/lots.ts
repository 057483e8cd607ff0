import type { LotAnswer, LotStores } from '#lib/bench/pipeline/lots';
import { dayOf } from '#lib/units/day';
import type { Clock } from '#lib/units/time';
import type { Realm } from '#lib/work/batch/index';
import type { Lot } from '#lib/work/formula/index';
import { faultOf } from '#lib/work/lots/fitness';
import { findLot } from '#lib/work/lots/find';
import { documentsOf } from '#lib/work/shelf/context';
import { newest } from '#lib/work/shelf/shelf';
import type { Shelf } from '#lib/work/shelf/shelf';

/** The lots that stand on the shelf, as the bench asks for them. */
export const createLotStores = (shelf: () => Shelf, realm: Realm, clock: Pick<Clock, 'wall' | 'offsetMinutes'>): LotStores => ({
  scanned(text, material): LotAnswer {
    const lots = documentsOf<Lot>(shelf(), 'lot');
    const found = findLot(lots, text, material, { wall: clock.wall(), offsetMin: clock.offsetMinutes() });
    return found.is === 'lot' ? { is: 'lot', id: found.lot.id, mark: found.lot.mark, fault: found.fault } : { is: found.is };
  },
  kept(id, material): LotAnswer | null {
    const lot = newest(shelf(), 'lot', id)?.document as unknown as Lot | undefined;
    // Typed plans of the invented workshop have lots that stand on no shelf; in a real one there are none.
    if (lot === undefined) return realm === 'real' ? { is: 'unknown' } : null;
    if (lot.material !== material) return { is: 'other' };
    return { is: 'lot', id, mark: lot.mark, fault: faultOf(lot, dayOf(clock.wall(), clock.offsetMinutes())) };
  },
});
