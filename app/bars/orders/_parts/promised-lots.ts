import type { BarsRow } from '#lib/protocol/bars';
import type { OrdersPage } from '#lib/protocol/orders';
import type { Day } from '#lib/units/day';

/** Bars of a lot that is there, promised to one order. */
export interface PromisedLot {
  readonly row: BarsRow;
  readonly bars: number;
  /** Likely ready today already; else the day it is likely so. */
  readonly ready: boolean;
  readonly day: Day;
}

/** What is promised to one order out of lots that are there, one line for each lot; batches to come are none of it. */
export const promisedOf = ({ outlook, today }: OrdersPage, order: string, rows: readonly BarsRow[]): readonly PromisedLot[] => {
  const sums = new Map<string, number>();
  for (const { wanted, taken, unsure } of outlook.reserved)
    if (wanted.order === order) for (const { mark, bars } of [...taken, ...unsure]) sums.set(mark, (sums.get(mark) ?? 0) + bars);
  return [...sums].flatMap(([mark, bars]): readonly PromisedLot[] => {
    const row = rows.find((one) => one.mark === mark);
    const day = outlook.supplies.find((one) => one.mark === mark)?.ready.likely;
    return row === undefined || row.cut === null || day === undefined ? [] : [{ row, bars, ready: day <= today, day }];
  });
};
