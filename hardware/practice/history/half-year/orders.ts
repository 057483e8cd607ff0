import { addDays } from '#lib/units/day';
import type { Day } from '#lib/units/day';
import type { PersonId } from '#lib/units/id';
import type { Order } from '#lib/work/orders/documents';

/** What is asked of the invented workshop in the months to come. */
export const ORDERS = (today: Day, buyers: readonly PersonId[]): readonly Order[] => [
  {
    id: 'window-of-the-mill',
    kind: 'order',
    name: 'Window of the mill shop',
    buyer: buyers[0] ?? null,
    due: addDays(today, 68),
    wants: [{ formula: 'alder-and-oat', bars: 60, label: null }],
    state: 'open',
    note: '',
  },
  {
    id: 'spring-market',
    kind: 'market',
    name: 'Spring market',
    buyer: null,
    due: addDays(today, 96),
    wants: [
      { formula: 'meadow-rain', bars: 70, label: null },
      { formula: 'slate', bars: 54, label: null },
      { formula: 'birch-brook', bars: 40, label: null },
    ],
    state: 'open',
    note: 'Two tables by the fountain.',
  },
];
