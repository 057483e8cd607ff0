import { dayOf, daysBetween } from '#lib/units/day';
import { windowOf } from '../bars/unmould';
import type { BarsSummary } from '../bars/index';
import type { UnmouldKept } from '../bars/documents';
import { mouldKept } from '../bars/offered';
import type { Formula, Mould } from '../formula/index';
import type { Trade } from './documents';
import type { Making, Takes } from './propose';
import { takesOf } from './ripening';
import type { Forecast } from './ripening';

/** What is known of how this workshop makes its soaps. */
export interface Known {
  readonly formulas: readonly Pick<Formula, 'id' | 'name' | 'moulds'>[];
  readonly moulds: readonly Mould[];
  /** Bar lots, open ones and those that are gone: the more there are the better is known what a batch gives. */
  readonly rows: readonly BarsSummary[];
  readonly forecasts: ReadonlyMap<string, Forecast>;
  readonly unmould: readonly UnmouldKept[];
  readonly trade: Trade;
  /** Days from cutting until ready of bars nothing is known of yet; asked only where it is needed. */
  readonly cure: () => Takes;
  readonly offsetMin: number;
}

/** Newest lots that speak for the next. */
const NEWEST = 3;
/** Cut on the day they come out, or the day after. Common practice, no source. */
const USUAL_CUT: Takes = { early: 0, likely: 0, late: 1 };
const HOURS = 24;
const GRAM = 1000;

/**
 * How each formula is made: bars, days and label as its own newest lots had them, the least of each where they differ. A formula none of
 * whose moulds anybody knows bars of is left out.
 */
export const makingsOf = (known: Known): readonly Making[] => known.formulas.flatMap((formula) => makingOf(formula, known) ?? []);

const makingOf = ({ id, moulds }: Known['formulas'][number], known: Known): Making | null => {
  const own = known.rows.filter(({ formula }) => formula.id === id).toSorted((a, b) => b.poured - a.poured);
  const each: Record<string, number> = {};
  const counts: Record<string, number> = {};
  for (const { mould, count } of moulds) {
    const bars = barsOf(mould, own, known);
    if (bars === null) return null;
    each[mould] = bars;
    counts[mould] = (counts[mould] ?? 0) + count;
  }
  const bars = Object.entries(counts).reduce((sum, [mould, count]) => sum + count * (each[mould] ?? 0), 0);
  if (bars < 1) return null;
  const labels = newest(own, ({ label }) => label);
  const comesOut = unmouldOf(id, moulds[0]?.mould ?? null, known);
  return {
    formula: id,
    moulds: counts,
    each,
    bars,
    label: labels.length === 0 ? null : Math.min(...labels) / GRAM,
    unmould: comesOut,
    cut: inTime(cutOf(own, known), comesOut, known.unmould.find((one) => one.id === id)?.latestCut ?? null),
    cure: cureOf(own, known),
  };
};

const newest = (own: readonly BarsSummary[], of: (row: BarsSummary) => number | null): readonly number[] =>
  own.flatMap((row) => of(row) ?? []).slice(0, NEWEST);

/** Bars for sale of one such mould. */
const barsOf = (id: string, own: readonly BarsSummary[], { moulds, rows, trade }: Known): number | null => {
  const inIt = (row: BarsSummary): number | null =>
    row.mould.id === id && row.cut !== null && row.counts.made > 0 ? Math.floor(row.counts.made / row.moulds) : null;
  const ofIt = newest(own, inIt);
  if (ofIt.length > 0) return Math.min(...ofIt);
  const typed = trade.moulds[id]?.bars ?? null;
  if (typed !== null) return typed;
  const others = newest(
    rows.toSorted((a, b) => b.poured - a.poured),
    inIt,
  );
  if (others.length > 0) return Math.min(...others);
  const mould = moulds.find((one) => one.id === id);
  const kept = mould === undefined ? null : mouldKept(mould);
  return kept?.gives === 'bars' ? kept.cavities : null;
};

const unmouldOf = (formula: string, mould: string | null, { rows, moulds, unmould }: Known): Takes => {
  const found = moulds.find((one) => one.id === mould);
  const kept =
    found === undefined
      ? { id: mould, name: '', gives: 'log' as const, cavities: 1, length: null, width: null, depth: null }
      : mouldKept(found);
  const next = { id: '', formula: { id: formula, name: '', version: 0 }, mould: kept, answers: [] };
  const { from, to, latest } = windowOf(next, rows, unmould.find(({ id }) => id === formula) ?? null);
  const most = latest === null ? Number.POSITIVE_INFINITY : Math.floor(latest / HOURS);
  return { early: Math.floor(from / HOURS), likely: Math.min(most, Math.ceil(from / HOURS)), late: Math.min(most, Math.ceil(to / HOURS)) };
};

/** Days from coming out to the cut. */
const cutOf = (own: readonly BarsSummary[], { offsetMin }: Known): Takes => {
  const days = newest(own, ({ unmould, cut }) =>
    unmould === null || cut === null || cut.count === 0
      ? null
      : Math.max(0, daysBetween(dayOf(unmould.wall, offsetMin), dayOf(cut.wall, offsetMin))),
  );
  return days.length === 0 ? USUAL_CUT : spread(days);
};

/** Cut by the latest hour of its formula, however late its own lots were. */
const inTime = (cut: Takes, { early, likely, late }: Takes, latest: number | null): Takes => {
  if (latest === null) return cut;
  const left = (out: number, days: number): number => Math.min(days, Math.max(0, Math.floor(latest / HOURS) - out));
  return { early: left(early, cut.early), likely: left(likely, cut.likely), late: left(late, cut.late) };
};

const cureOf = (own: readonly BarsSummary[], { forecasts, cure }: Known): Takes => {
  const found = own
    .flatMap(({ id }) => forecasts.get(id)?.ready ?? [])
    .slice(0, NEWEST)
    .map(takesOf);
  if (found.length === 0) return cure();
  return {
    early: Math.min(...found.map(({ early }) => early)),
    likely: spread(found.map(({ likely }) => likely)).likely,
    late: Math.max(...found.map(({ late }) => late)),
  };
};

const spread = (days: readonly number[]): Takes => {
  const ascending = days.toSorted((a, b) => a - b);
  return { early: ascending[0] ?? 0, likely: ascending[ascending.length >> 1] ?? 0, late: ascending.at(-1) ?? 0 };
};
