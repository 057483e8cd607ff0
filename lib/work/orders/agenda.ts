import { addDays, dayOf } from '#lib/units/day';
import type { Day } from '#lib/units/day';
import type { BarsSummary } from '../bars/index';
import { cutBefore, isOut } from '../bars/due';
import { windowOf } from '../bars/unmould';
import type { UnmouldKept } from '../bars/documents';
import type { ToBuy } from './buying';
import type { OrderStand } from './delivered';
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
  /** `from`: wall time its window opens; `before`: by which it has to be cut. `null`: not said, or only planned. */
  | (LogTask & { readonly kind: 'unmould'; readonly from: number | null })
  | (LogTask & { readonly kind: 'cut' })
  | { readonly kind: 'weigh'; readonly mark: string; readonly formula: string }
  | { readonly kind: 'ready'; readonly mark: string; readonly formula: string; readonly ready: ReadyDay; readonly planned: boolean }
  | { readonly kind: 'buy'; readonly thing: string; readonly amount: number; readonly packs: number | null; readonly late: boolean }
  | { readonly kind: 'due'; readonly order: string; readonly bars: number };

export interface OnDay {
  /** The same for the same thing for ever. */
  readonly id: string;
  readonly day: Day;
  /** Wall times between which it is to be done, where hours count and lie on that day. */
  readonly hours: { readonly from: number; readonly to: number } | null;
  readonly task: Task;
}

interface LogTask {
  readonly mark: string;
  readonly formula: string;
  readonly planned: boolean;
  readonly before: number | null;
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
  /** Open ones, and how far they are filled. */
  readonly orders: readonly Order[];
  readonly stands: Readonly<Record<string, Pick<OrderStand, 'open'>>>;
}): readonly OnDay[] => {
  const { today, offsetMin, rows, batches, buying, orders, stands } = facts;
  const due = (day: Day): Day => (day < today ? today : day);
  const tasks: OnDay[] = [];
  const add = (id: string, day: Day, task: Task, hours: OnDay['hours'] = null): void => {
    tasks.push({ id, day: due(day), hours: day < today ? null : hours, task });
  };
  const dayAt = (wall: number): Day => dayOf(wall, offsetMin);
  for (const row of rows) {
    const { id, mark, formula, cut, poured, counts } = row;
    const out = isOut(row);
    const said = facts.unmould.find((one) => one.id === formula.id) ?? null;
    const before = cutBefore(row, said);
    const log = { mark, formula: formula.name, planned: false, before };
    const by = before === null ? null : { from: before - HOUR_MS, to: before };
    if (cut === null && !out) {
      const from = poured + windowOf(row, rows, said).from * HOUR_MS;
      // In the freezer it waits for a person.
      if (row.unmould?.state !== 'freezer')
        add(`unmould-${id}`, dayAt(from), { kind: 'unmould', ...log, from }, { from, to: from + HOUR_MS });
      if (before !== null) add(`cut-${id}`, dayAt(before), { kind: 'cut', ...log }, by);
    }
    if (cut === null && out && row.unmould !== null) {
      const day = due(dayAt(row.unmould.wall));
      add(`cut-${id}`, day, { kind: 'cut', ...log }, before !== null && dayAt(before) === day ? by : null);
    }
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
    add(`unmould-${id}`, unmould, { kind: 'unmould', mark, formula, planned: true, from: null, before: null });
    add(`cut-${id}`, cut, { kind: 'cut', mark, formula, planned: true, before: null });
    add(`ready-${id}`, ready.likely, { kind: 'ready', mark, formula, ready, planned: true });
  }
  for (const { thing, amount, packs, orderBy, late } of buying) add(`buy-${thing}`, orderBy, { kind: 'buy', thing, amount, packs, late });
  for (const { id, name, due: day } of orders) {
    const bars = stands[id]?.open ?? 0;
    if (bars > 0) add(`due-${id}`, day, { kind: 'due', order: name, bars });
  }
  return tasks.toSorted((a, b) => a.day.localeCompare(b.day) || RANK[a.task.kind] - RANK[b.task.kind] || a.id.localeCompare(b.id));
};

const HOUR_MS = 3_600_000;

/** The order of one day's work. */
const RANK: Readonly<Record<Task['kind'], number>> = { due: 0, pour: 1, unmould: 2, cut: 3, weigh: 4, ready: 5, buy: 6 };

/** The day on which a lot's next weighing would tell most: `days` from the wall time its forecast counts from. */
export const weighDay = (from: number, days: number, offsetMin: number): Day => addDays(dayOf(from, offsetMin), days);
