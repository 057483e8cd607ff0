import { addDays, dayOf } from '#lib/units/day';
import type { Day } from '#lib/units/day';
import type { BarsSummary } from '../bars/index';
import { isOut } from '../bars/due';
import { windowOf } from '../bars/unmould';
import type { UnmouldKept } from '../bars/documents';
import type { ToBuy } from './buying';
import type { Order } from './documents';
import type { Proposed } from './propose';
import type { ReadyDay } from './reserve';

/** Something to be done on a day, in codes. Words are the screen's and the calendar's. */
export type Task =
  | {
      readonly kind: 'pour';
      readonly formula: string;
      readonly batch: string;
      readonly order: string;
      readonly bars: number;
      readonly late: number;
    }
  | { readonly kind: 'unmould'; readonly mark: string; readonly formula: string; readonly planned: boolean }
  | { readonly kind: 'cut'; readonly mark: string; readonly formula: string; readonly planned: boolean }
  | { readonly kind: 'weigh'; readonly mark: string; readonly formula: string }
  | { readonly kind: 'ready'; readonly mark: string; readonly formula: string; readonly ready: ReadyDay; readonly planned: boolean }
  | { readonly kind: 'buy'; readonly thing: string; readonly amount: number; readonly packs: number | null; readonly late: boolean }
  | { readonly kind: 'due'; readonly order: string; readonly bars: number };

export interface OnDay {
  /** The same for the same thing for ever. */
  readonly id: string;
  readonly day: Day;
  readonly task: Task;
}

/** Everything that must happen, by day. What is overdue stands on `today`. */
export const agendaOf = (facts: {
  readonly today: Day;
  readonly offsetMin: number;
  readonly rows: readonly BarsSummary[];
  readonly unmould: readonly UnmouldKept[];
  readonly ready: ReadonlyMap<string, ReadyDay>;
  /** Wall times of weighings that would tell most, by bar lot. */
  readonly weigh: ReadonlyMap<string, Day>;
  readonly batches: readonly Proposed[];
  readonly buying: readonly ToBuy[];
  readonly orders: readonly Order[];
}): readonly OnDay[] => {
  const { today, offsetMin, rows, batches, buying, orders } = facts;
  const due = (day: Day): Day => (day < today ? today : day);
  const tasks: OnDay[] = [];
  const add = (id: string, day: Day, task: Task): void => void tasks.push({ id, day: due(day), task });
  for (const row of rows) {
    const { id, mark, formula, cut, poured, counts } = row;
    const out = isOut(row);
    if (cut === null && !out) {
      const hours = windowOf(row, rows, facts.unmould.find((one) => one.id === formula.id) ?? null).from;
      add(`unmould-${id}`, dayOf(poured + hours * HOUR_MS, offsetMin), { kind: 'unmould', mark, formula: formula.name, planned: false });
    }
    if (cut === null && out && row.unmould !== null)
      add(`cut-${id}`, dayOf(row.unmould.wall, offsetMin), { kind: 'cut', mark, formula: formula.name, planned: false });
    if (cut === null || counts.shelf < 1) continue;
    const [weigh, ready] = [facts.weigh.get(id), facts.ready.get(id)];
    // What is ready by then is weighed for nobody's date any more.
    if (weigh !== undefined && (ready === undefined || due(weigh) < ready.likely))
      add(`weigh-${id}`, weigh, { kind: 'weigh', mark, formula: formula.name });
    if (ready !== undefined && ready.by >= today)
      add(`ready-${id}`, ready.likely, { kind: 'ready', mark, formula: formula.name, ready, planned: false });
  }
  for (const { mark, formula, order, bars, late, pour, unmould, cut, ready } of batches) {
    const id = `${order}-${mark.replaceAll(' ', '-')}`;
    add(`pour-${id}`, pour, { kind: 'pour', formula, batch: mark, order, bars, late });
    add(`unmould-${id}`, unmould, { kind: 'unmould', mark, formula, planned: true });
    add(`cut-${id}`, cut, { kind: 'cut', mark, formula, planned: true });
    add(`ready-${id}`, ready.likely, { kind: 'ready', mark, formula, ready, planned: true });
  }
  for (const { thing, amount, packs, orderBy, late } of buying) add(`buy-${thing}`, orderBy, { kind: 'buy', thing, amount, packs, late });
  for (const { id, name, due: day, wants, state } of orders)
    if (state === 'open') add(`due-${id}`, day, { kind: 'due', order: name, bars: wants.reduce((sum, { bars }) => sum + bars, 0) });
  return tasks.toSorted((a, b) => a.day.localeCompare(b.day) || RANK[a.task.kind] - RANK[b.task.kind] || a.id.localeCompare(b.id));
};

const HOUR_MS = 3_600_000;

/** The order of one day's work. */
const RANK: Readonly<Record<Task['kind'], number>> = { due: 0, pour: 1, unmould: 2, cut: 3, weigh: 4, ready: 5, buy: 6 };

/** The day on which a lot's next weighing would tell most: `days` from the wall time its forecast counts from. */
export const weighDay = (from: number, days: number, offsetMin: number): Day => addDays(dayOf(from, offsetMin), days);
