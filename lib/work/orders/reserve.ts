import type { Day } from '#lib/units/day';

/** A day with its doubt: nine times in ten between `from` and `by`. */
export interface ReadyDay {
  readonly from: Day;
  readonly likely: Day;
  readonly by: Day;
}

/** Bars there are, finished or curing. */
export interface Supply {
  /** Mark of the bar lot, or of a batch still to be poured. */
  readonly mark: string;
  readonly formula: string;
  /** Bars that may be sold: neither held, nor testers, nor gone. */
  readonly bars: number;
  /** What one may be labelled with, g; `null` where nobody has said. */
  readonly label: number | null;
  readonly ready: ReadyDay;
}

/** What an order or a market asks of one formula. */
export interface Wanted {
  readonly order: string;
  readonly formula: string;
  /** Whole bars, above zero. */
  readonly bars: number;
  /** g on the label at least; `null`: as they are. */
  readonly label: number | null;
  readonly due: Day;
}

export interface Taken {
  readonly mark: string;
  readonly bars: number;
}

export interface Reserved {
  readonly wanted: Wanted;
  /** Surely ready in time. */
  readonly taken: readonly Taken[];
  /** May be ready in time, and is not counted. */
  readonly unsure: readonly Taken[];
  /** Bars still to be made. */
  readonly missing: number;
}

const byDue = (a: Wanted, b: Wanted): number => a.due.localeCompare(b.due) || a.order.localeCompare(b.order);
const byReady = (a: Supply, b: Supply): number => a.ready.by.localeCompare(b.ready.by) || a.mark.localeCompare(b.mark);

/** Whether a bar of it may stand for what is wanted, its day apart. */
export const suits = (supply: Supply, wanted: Wanted): boolean =>
  supply.formula === wanted.formula && (wanted.label === null || (supply.label !== null && supply.label >= wanted.label));

/**
 * Bars that are there promised to what is due first, the oldest of them first. Only bars that are ready in nine cases of ten by the day
 * before count: what may be ready is named beside.
 */
export const reserve = (
  wants: readonly Wanted[],
  supplies: readonly Supply[],
): { readonly reserved: readonly Reserved[]; readonly free: readonly Supply[] } => {
  const left = new Map(supplies.map((one) => [one.mark, one.bars]));
  const oldest = supplies.toSorted(byReady);
  const take = (from: readonly Supply[], most: number): readonly Taken[] => {
    const taken: Taken[] = [];
    let open = most;
    for (const { mark } of from) {
      const bars = Math.min(open, left.get(mark) ?? 0);
      if (bars <= 0) continue;
      taken.push({ mark, bars });
      left.set(mark, (left.get(mark) ?? 0) - bars);
      open -= bars;
    }
    return taken;
  };
  const reserved = wants.toSorted(byDue).map((wanted): Reserved => {
    const of = oldest.filter((one) => suits(one, wanted));
    const taken = take(
      of.filter(({ ready }) => ready.by <= wanted.due),
      wanted.bars,
    );
    const missing = wanted.bars - taken.reduce((sum, { bars }) => sum + bars, 0);
    const unsure = of.flatMap(({ mark, ready }) => {
      const bars = Math.min(missing, left.get(mark) ?? 0);
      return ready.by > wanted.due && ready.from <= wanted.due && bars > 0 ? [{ mark, bars }] : [];
    });
    return { wanted, taken, unsure, missing };
  });
  return { reserved, free: supplies.map((one) => ({ ...one, bars: left.get(one.mark) ?? 0 })).filter(({ bars }) => bars > 0) };
};
