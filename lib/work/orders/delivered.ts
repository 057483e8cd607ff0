import { sumOfAll } from '#lib/units/sum';
import type { BarsSummary } from '../bars/index';
import { numberOf } from '../formula/index';
import type { Order, OrderLine } from './documents';

/** What of one bar lot went to an order or a market. */
export interface Handed {
  /** Of the bar lot. */
  readonly id: string;
  readonly mark: string;
  readonly formula: string;
  /** Sold or given away there, less what was given back. */
  readonly over: number;
  /** Taken along, and not counted since. */
  readonly away: number;
}

/** A line of an order, and what of it was handed over, is on its way, and has still to be found. */
export interface LineStand extends OrderLine {
  readonly over: number;
  readonly away: number;
  readonly open: number;
}

/** How far an order is filled. */
export interface OrderStand {
  readonly lines: readonly LineStand[];
  /** By bar lot; soaps nobody had asked for among them. */
  readonly handed: readonly Handed[];
  readonly asked: number;
  readonly over: number;
  readonly away: number;
  /** Bars of it still to be handed over or taken along. */
  readonly open: number;
}

type Row = Pick<BarsSummary, 'id' | 'mark' | 'formula' | 'label' | 'orders'>;
interface Labelled extends Handed {
  readonly label: number | null;
}

const GRAM = 1000;

/** What went to one order, oldest lot first. */
const handedTo = (order: string, rows: readonly Row[]): readonly Labelled[] =>
  rows
    .flatMap(({ id, mark, formula, label, orders }) =>
      orders
        .filter((one) => one.order === order)
        .map(({ sold, given, away }) => ({ id, mark, formula: formula.id, label, over: sold + given, away })),
    )
    .toSorted((a, b) => a.mark.localeCompare(b.mark));

const weightOf = ({ label }: OrderLine): number => (label === null ? 0 : (numberOf(label) ?? 0));

/**
 * What was handed over goes to the lines of its soap, those that ask for the heaviest label first that it carries; a person who named the
 * order meant it, so that what carries no label that is asked for fills a line of its soap all the same.
 */
const filled = (
  lines: readonly OrderLine[],
  handed: readonly Labelled[],
  of: 'over' | 'away',
  before: readonly number[],
): readonly number[] => {
  const counts = lines.map(() => 0);
  const left = (at: number): number => (lines[at]?.bars ?? 0) - (before[at] ?? 0) - (counts[at] ?? 0);
  for (const one of handed) {
    let bars = one[of];
    const own = lines
      .map((line, at) => ({ at, line, carries: (one.label ?? 0) >= weightOf(line) * GRAM }))
      .filter(({ line }) => line.formula === one.formula)
      .toSorted((a, b) => Number(b.carries) - Number(a.carries) || weightOf(b.line) - weightOf(a.line));
    for (const { at } of own) {
      const into = Math.min(bars, Math.max(0, left(at)));
      counts[at] = (counts[at] ?? 0) + into;
      bars -= into;
    }
    const [first] = own;
    if (first !== undefined) counts[first.at] = (counts[first.at] ?? 0) + bars;
  }
  return counts;
};

/** How far an order is filled by what the bar lots' sales name it. */
export const standOf = ({ id, wants }: Pick<Order, 'id' | 'wants'>, rows: readonly Row[]): OrderStand => {
  const handed = handedTo(id, rows);
  const over = filled(wants, handed, 'over', []);
  const away = filled(wants, handed, 'away', over);
  const lines = wants.map((line, at): LineStand => {
    const [gone, onWay] = [over[at] ?? 0, away[at] ?? 0];
    return { ...line, over: gone, away: onWay, open: Math.max(0, line.bars - gone - onWay) };
  });
  return {
    lines,
    handed: handed.map(({ label: _label, ...one }) => one),
    asked: sumOfAll(wants.map(({ bars }) => bars)),
    over: sumOfAll(handed.map((one) => one.over)),
    away: sumOfAll(handed.map((one) => one.away)),
    open: sumOfAll(lines.map(({ open }) => open)),
  };
};
