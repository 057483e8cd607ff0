import type { Day } from '#lib/units/day';
import type { BarsSummary } from '../bars/index';
import type { Need } from './buying';
import type { Goods } from './documents';
import type { Proposal } from './propose';
import type { Supply } from './reserve';
import { piecesFor } from './wraps';

export interface NeedsFacts {
  readonly today: Day;
  readonly rows: readonly BarsSummary[];
  readonly goods: readonly Goods[];
  /** mg of each material one batch of a formula takes; `null` where it cannot be planned. */
  readonly takes: (formula: string) => Readonly<Record<string, number>> | null;
  /** Bar lots of which something was wrapped. */
  readonly wrapped: readonly BarsSummary[];
}

/** Bars of a supply that nobody has wrapped; those that left are taken to have been wrapped first. */
const unwrapped = ({ bars }: Supply, row: BarsSummary | undefined): number => {
  const gone = row === undefined ? 0 : row.counts.made - row.counts.shelf;
  return Math.max(0, bars - Math.max(0, (row?.wrapped?.bars ?? 0) - gone));
};

/**
 * Materials of what is to be poured; wraps of that and of what cures still. Ready bars are wrapped, as far as anybody knows: but for lots
 * from the first on of which a wrapping stands in the record.
 */
export const needsOf = (
  { batches }: Pick<Proposal, 'batches'>,
  supplies: readonly Supply[],
  { takes, goods, today, rows, wrapped }: NeedsFacts,
): readonly Need[] => {
  const since = Math.min(Infinity, ...wrapped.map(({ poured }) => poured));
  const wraps = ({ mark, ready, formula }: Pick<Supply, 'mark' | 'ready' | 'formula'>, bars: number): readonly Need[] =>
    goods.flatMap((one) => {
      const amount = piecesFor(one, formula, bars);
      const day = ready.likely > today ? ready.likely : today;
      return amount > 0 ? [{ thing: one.id, amount, day, for: mark }] : [];
    });
  return [
    ...supplies.flatMap((supply) => {
      const row = rows.find(({ mark }) => mark === supply.mark);
      const isToWrap = supply.ready.likely > today || (row?.poured ?? -Infinity) >= since;
      return isToWrap ? wraps(supply, unwrapped(supply, row)) : [];
    }),
    ...batches.flatMap((batch) => [
      ...Object.entries(takes(batch.formula) ?? {}).map(([thing, amount]) => ({ thing, amount, day: batch.pour, for: batch.mark })),
      ...wraps(batch, batch.bars),
    ]),
  ];
};
