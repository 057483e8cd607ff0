import { daysBetween } from '#lib/units/day';
import type { Day } from '#lib/units/day';
import type { Lot } from '../formula/index';

/** Why a lot is not to be weighed from without somebody saying so: past its day, set apart, or used up. */
export type LotFault = 'quarantined' | 'expired' | 'used-up';

/** What of a lot decides whether it may be weighed from. */
export type Fitness = Pick<Lot, 'state' | 'bestBefore'>;

/** The day itself still counts; what has no day never runs out. */
export const faultOf = ({ state = 'in-use', bestBefore }: Fitness, today: Day): LotFault | null => {
  if (state !== 'in-use') return state;
  return bestBefore !== undefined && daysBetween(bestBefore, today) > 0 ? 'expired' : null;
};

/** First expired, first out: fit ones before others, then the earliest day, then what was opened or came first. */
export const firstOut = <L extends Pick<Lot, 'state' | 'bestBefore' | 'opened' | 'received' | 'mark'>>(
  lots: readonly L[],
  today: Day,
): readonly L[] =>
  lots.toSorted(
    (a, b) =>
      Number(faultOf(a, today) !== null) - Number(faultOf(b, today) !== null) ||
      (a.bestBefore ?? NEVER).localeCompare(b.bestBefore ?? NEVER) ||
      (a.opened ?? NEVER).localeCompare(b.opened ?? NEVER) ||
      (a.received?.day ?? NEVER).localeCompare(b.received?.day ?? NEVER) ||
      a.mark.localeCompare(b.mark),
  );

/** After every day there is. */
const NEVER = '9999';
