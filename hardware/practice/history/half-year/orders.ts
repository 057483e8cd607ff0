import { addDays } from '#lib/units/day';
import type { Day } from '#lib/units/day';
import type { PersonId } from '#lib/units/id';
import type { BarsEntry } from '#lib/work/bars/index';
import type { Order } from '#lib/work/orders/documents';

type Line = Order['wants'][number];

const DAY_MS = 86_400_000;
/** What is over: days before now between which it was filled. */
const STALL = { id: 'autumn-stall', from: 65, to: 24 };
const MILL = { id: 'shelf-of-the-mill', from: 70, to: 12 };

/** The order or market that bars of the past went to; `null`: neither. */
export const filledBy = (by: 'stall' | 'sale', toTheMill: boolean, wall: number, now: number): string | null => {
  const days = (now - wall) / DAY_MS;
  const within = ({ from, to }: typeof MILL): boolean => days <= from && days >= to;
  if (by === 'stall') return within(STALL) ? STALL.id : null;
  return toTheMill && within(MILL) ? MILL.id : null;
};

/** What went to it, as what was asked for; nothing where nothing did. */
const wantsOf = (order: string, bars: readonly (readonly BarsEntry[])[]): readonly Line[] => {
  const sums = new Map<string, number>();
  for (const entries of bars) {
    const [begun] = entries;
    if (begun?.kind !== 'bars-begun') continue;
    for (const { kind, body } of entries)
      if ((kind === 'bars-sold' || kind === 'bars-given') && body.at === order)
        sums.set(begun.body.of.formula.id, (sums.get(begun.body.of.formula.id) ?? 0) + body.count);
  }
  return [...sums].map(([formula, count]) => ({ formula, bars: count, label: null }));
};

/** What was asked of the invented workshop and is done, and what is asked in the months to come. */
export const ORDERS = (today: Day, buyers: readonly PersonId[], bars: readonly (readonly BarsEntry[])[]): readonly Order[] => {
  const mill = buyers[0] ?? null;
  const over: readonly Order[] = [
    {
      id: STALL.id,
      kind: 'market',
      name: 'Autumn stall in the hall',
      buyer: null,
      due: addDays(today, -STALL.to),
      wants: wantsOf(STALL.id, bars),
      state: 'done',
      note: 'Six Saturdays.',
    },
    {
      id: MILL.id,
      kind: 'order',
      name: 'Shelf of the mill shop',
      buyer: mill,
      due: addDays(today, -MILL.to),
      wants: wantsOf(MILL.id, bars),
      state: 'done',
      note: 'As it sells.',
    },
  ];
  return [
    ...over.filter(({ wants }) => wants.length > 0),
    {
      id: 'window-of-the-mill',
      kind: 'order',
      name: 'Window of the mill shop',
      buyer: mill,
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
};
