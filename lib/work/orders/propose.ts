import { addDays, daysBetween, weekdayOf } from '#lib/units/day';
import type { Day } from '#lib/units/day';
import { reserve } from './reserve';
import type { Reserved, Supply, Wanted } from './reserve';

/** Days something takes: `late` is passed one time in twenty. */
export interface Takes {
  readonly likely: number;
  readonly early: number;
  readonly late: number;
}

/** How one formula is made here: one batch fills a set of moulds. */
export interface Making {
  readonly formula: string;
  /** Moulds one batch fills, by mould. */
  readonly moulds: Readonly<Record<string, number>>;
  /** Bars for sale of one of each. */
  readonly each: Readonly<Record<string, number>>;
  /** Bars for sale of one batch, ends and testers apart. */
  readonly bars: number;
  /** g a label of them carries; `null` where nobody has said. */
  readonly label: number | null;
  /** From the pour until it is out of its moulds. */
  readonly unmould: Takes;
  /** From there until it is cut. */
  readonly cut: Takes;
  /** From the cut until it is ready. */
  readonly cure: Takes;
}

export interface Workplace {
  readonly today: Day;
  /** Days of the week somebody pours on: 1 Monday … 7 Sunday. */
  readonly days: readonly number[];
  readonly batchesADay: number;
  /** Batches of today that are poured already. */
  readonly poured: number;
  /** How many there are of each mould. */
  readonly moulds: Readonly<Record<string, number>>;
  /** Moulds that are full, each until the day it is free again at the latest. */
  readonly busy: readonly { readonly mould: string; readonly from: Day; readonly until: Day }[];
}

/** A batch to be poured, worked back from the day it is wanted. */
export interface Proposed {
  /** "next 1", until it is poured and has a mark. */
  readonly mark: string;
  readonly formula: string;
  /** What it is made for; its spare bars may serve others. */
  readonly order: string;
  /** The last day that is safe. */
  readonly pour: Day;
  readonly unmould: Day;
  readonly cut: Day;
  readonly ready: { readonly from: Day; readonly likely: Day; readonly by: Day };
  readonly bars: number;
  readonly spare: number;
  /** Days by which even today is too late to be sure; 0 where there is time. */
  readonly late: number;
}

export type Clash =
  /** No safe day is left. */
  | { readonly what: 'too-late'; readonly order: string; readonly formula: string; readonly days: number }
  /** Every day before has its moulds full: an earlier one was taken, or none was found. */
  | { readonly what: 'moulds'; readonly order: string; readonly formula: string; readonly mould: string }
  /** Somebody works, but never with the moulds free: so many bars are in no batch. */
  | { readonly what: 'no-day'; readonly order: string; readonly formula: string; readonly bars: number }
  /** Nobody has said how it is made: no moulds, or nothing known of its cure. */
  | { readonly what: 'unknown-making'; readonly order: string; readonly formula: string }
  | { readonly what: 'label'; readonly order: string; readonly formula: string; readonly carries: number | null };

export interface Proposal {
  readonly reserved: readonly Reserved[];
  readonly batches: readonly Proposed[];
  readonly clashes: readonly Clash[];
}

/** Looked no further than this for a free day, back or on. */
const FURTHEST = 200;

const lateOf = ({ unmould, cut, cure }: Making): number => unmould.late + cut.late + cure.late;

/**
 * What must be poured when, so that everything is there on its day: bars that are there first, then whole batches, each on the last safe
 * day on which somebody works and its moulds are free. A batch's spare bars serve what is due later.
 */
export const propose = (wants: readonly Wanted[], supplies: readonly Supply[], makings: readonly Making[], place: Workplace): Proposal => {
  const batches: Proposed[] = [];
  const clashes: Clash[] = [];
  const planned = new Planner(place);
  // One order after another, since a batch made for one may have bars for the next.
  const dues = wants.toSorted((a, b) => a.due.localeCompare(b.due) || a.order.localeCompare(b.order));
  for (const [at, wanted] of dues.entries()) {
    const there = (): number => {
      const { reserved } = reserve(dues.slice(0, at + 1), [...supplies, ...batches.map((one) => asSupply(one, makings))]);
      return reserved.find((one) => one.wanted === wanted)?.missing ?? 0;
    };
    let missing = there();
    if (missing === 0) continue;
    const { order, formula, due } = wanted;
    const making = makings.find((one) => one.formula === formula);
    if (making === undefined || making.bars < 1) {
      clashes.push({ what: 'unknown-making', order, formula });
      continue;
    }
    if (wanted.label !== null && (making.label === null || making.label < wanted.label)) {
      clashes.push({ what: 'label', order, formula, carries: making.label });
      // What no lot has told yet is not too light: it is poured in time, and its bars have to be weighed.
      if (making.label !== null) continue;
    }
    for (let n = Math.ceil(missing / making.bars); n > 0; n -= 1) {
      const found = planned.lastDay(making, due);
      if (found === null) {
        clashes.push({ what: 'no-day', order, formula, bars: missing });
        break;
      }
      if (found.full !== null) clashes.push({ what: 'moulds', order, formula, mould: found.full });
      if (found.late > 0) clashes.push({ what: 'too-late', order, formula, days: found.late });
      const spare = Math.max(0, making.bars - missing);
      batches.push({ ...scheduled(making, found.day), mark: `next ${batches.length + 1}`, order, spare, late: found.late });
      missing -= making.bars;
    }
  }
  const { reserved } = reserve(wants, [...supplies, ...batches.map((one) => asSupply(one, makings))]);
  const pours = batches.toSorted((a, b) => a.pour.localeCompare(b.pour) || a.mark.localeCompare(b.mark));
  return { reserved, batches: pours, clashes: saidOnce(clashes) };
};

/** Several batches of one order meet the same. */
const saidOnce = (clashes: readonly Clash[]): readonly Clash[] => [
  ...new Map(clashes.map((clash) => [JSON.stringify(clash), clash] as const)).values(),
];

const scheduled = (making: Making, pour: Day): Omit<Proposed, 'mark' | 'order' | 'spare' | 'late'> => {
  const { unmould, cut, cure, formula, bars } = making;
  const cutDay = addDays(pour, unmould.likely + cut.likely);
  return {
    formula,
    bars,
    pour,
    unmould: addDays(pour, unmould.likely),
    cut: cutDay,
    ready: {
      from: addDays(pour, unmould.early + cut.early + cure.early),
      likely: addDays(cutDay, cure.likely),
      by: addDays(pour, lateOf(making)),
    },
  };
};

const asSupply = ({ mark, formula, bars, ready, late }: Proposed, makings: readonly Making[]): Supply => ({
  mark,
  formula,
  bars,
  label: makings.find((one) => one.formula === formula)?.label ?? Number.POSITIVE_INFINITY,
  // What is too late by its interval is made for its order all the same.
  ready: late > 0 ? { ...ready, by: addDays(ready.by, -late) } : ready,
});

/** Which days have how many batches, and which moulds are full when. */
class Planner {
  readonly #place: Workplace;
  readonly #pours = new Map<Day, number>();
  readonly #busy: { readonly mould: string; readonly from: Day; readonly until: Day }[];

  constructor(place: Workplace) {
    this.#place = place;
    this.#busy = [...place.busy];
    this.#pours.set(place.today, place.poured);
  }

  /** The last safe day, taken. `full`: the mould that made it an earlier one; `late`: days by which it is not safe any more. `null`: no day at all. */
  lastDay(making: Making, due: Day): { readonly day: Day; readonly late: number; readonly full: string | null } | null {
    const { today } = this.#place;
    const safe = addDays(due, -lateOf(making));
    let full: string | null = null;
    for (let back = 0; back <= FURTHEST; back += 1) {
      const day = addDays(safe, -back);
      if (day < today) break;
      if (!this.#works(day)) continue;
      const mould = this.#fullOn(making, day);
      if (mould === null) return { day: this.#take(making, day), late: 0, full };
      full ??= mould;
    }
    // None is left: the first that can be, and by how much it is late.
    for (let on = 0; on <= FURTHEST; on += 1) {
      const day = addDays(today, on);
      if (!this.#works(day)) continue;
      const mould = this.#fullOn(making, day);
      if (mould === null) return { day: this.#take(making, day), late: Math.max(0, daysBetween(safe, day)), full };
      full ??= mould;
    }
    return null;
  }

  #works(day: Day): boolean {
    const { days, batchesADay } = this.#place;
    return days.includes(weekdayOf(day)) && (this.#pours.get(day) ?? 0) < batchesADay;
  }

  /** The mould there are too few of, of a batch poured that day and unmoulded late; `null` where all are free. */
  #fullOn({ moulds, unmould }: Making, day: Day): string | null {
    const until = addDays(day, unmould.late);
    for (const [mould, needed] of Object.entries(moulds)) {
      const used = this.#busy.filter((one) => one.mould === mould && one.from <= until && one.until >= day).length;
      if (used + needed > (this.#place.moulds[mould] ?? 0)) return mould;
    }
    return null;
  }

  #take({ moulds, unmould }: Making, day: Day): Day {
    this.#pours.set(day, (this.#pours.get(day) ?? 0) + 1);
    for (const [mould, needed] of Object.entries(moulds))
      for (let n = 0; n < needed; n += 1) this.#busy.push({ mould, from: day, until: addDays(day, unmould.late) });
    return day;
  }
}
