import type { Day } from '#lib/units/day';
import { addDays, dayOf } from '#lib/units/day';
import { isOut } from '../bars/due';
import type { BarsSummary } from '../bars/index';
import { numberOf } from '../formula/index';
import { agendaOf } from './agenda';
import type { OnDay } from './agenda';
import { buyingList } from './buying';
import type { Bought, ToBuy } from './buying';
import { standOf } from './delivered';
import type { OrderStand } from './delivered';
import type { Goods, Order } from './documents';
import { makingsOf } from './makings';
import type { Known } from './makings';
import { needsOf } from './needs';
import { propose } from './propose';
import type { Making, Proposal } from './propose';
import type { ReadyDay, Supply, Wanted } from './reserve';
import { readyDayOf, suppliesOf } from './ripening';
import { overfull } from './shelf-room';
import { drawnBy, piecesOnHand } from './wraps';

export interface Facts extends Known {
  readonly today: Day;
  readonly orders: readonly Order[];
  readonly goods: readonly Goods[];
  /** mg on hand by material: received less what was weighed. Below zero where more was weighed than was noted. */
  readonly onHand: Readonly<Record<string, number>>;
  /** mg of each material one batch of a formula takes; `null` where it cannot be planned. */
  readonly takes: (formula: string) => Readonly<Record<string, number>> | null;
  readonly weigh: ReadonlyMap<string, Day>;
  /** Bar lots of which something went to an order or a market, those that are gone among them. */
  readonly serving: readonly BarsSummary[];
  /** Bar lots of which something was wrapped, those that are gone among them. */
  readonly wrapped: readonly BarsSummary[];
}

/** Everything the page of orders shows. */
export interface Outlook extends Proposal {
  readonly makings: readonly Making[];
  readonly supplies: readonly Supply[];
  readonly buying: readonly ToBuy[];
  readonly crowded: readonly { readonly day: Day; readonly over: number }[];
  readonly agenda: readonly OnDay[];
  /** Formulas of proposed batches nobody can say the weights of: what is to be bought for them is not in the list. */
  readonly unplanned: readonly string[];
  /** By order or market, whatever its state: how far it is filled. */
  readonly stands: Readonly<Record<string, OrderStand>>;
}

export const outlookOf = (facts: Facts): Outlook => {
  const { rows, forecasts, offsetMin, today, orders, trade, moulds, unmould, weigh, serving } = facts;
  const stands = Object.fromEntries(orders.map((order) => [order.id, standOf(order, serving)]));
  const open = orders.filter(({ state }) => state === 'open');
  const makings = makingsOf(facts);
  const supplies = suppliesOf(rows, forecasts, makings, offsetMin);
  const owned = Object.fromEntries(moulds.map(({ id }) => [id, trade.moulds[id]?.owned ?? 1]));
  const busy = rows.flatMap((row) => busyOf(row, makings, offsetMin, today));
  const proposal = propose(wantsOf(open, stands), supplies, makings, {
    today,
    days: trade.days,
    batchesADay: trade.batchesADay,
    poured: new Set(rows.filter(({ poured }) => dayOf(poured, offsetMin) === today).map(({ batch }) => batch)).size,
    moulds: owned,
    busy,
  });
  const buying = buyingList(needsOf(proposal, supplies, facts), boughtOf(facts), today);
  const ready = new Map(
    rows.flatMap(({ id }): readonly (readonly [string, ReadyDay])[] => {
      const forecast = forecasts.get(id);
      const day = forecast === undefined ? null : readyDayOf(forecast, offsetMin);
      return day === null ? [] : [[id, day]];
    }),
  );
  const lying = rows.reduce((sum, { counts }) => sum + counts.shelf, 0);
  const moves = [
    ...rows.flatMap((row) => comingOf(row, makings, offsetMin, today)),
    ...proposal.batches.map(({ cut, bars }) => ({ day: cut, bars })),
    ...proposal.reserved.map(({ wanted, taken }) => ({ day: wanted.due, bars: -taken.reduce((sum, { bars }) => sum + bars, 0) })),
  ];
  return {
    ...proposal,
    stands,
    unplanned: [...new Set(proposal.batches.map(({ formula }) => formula))].filter((id) => facts.takes(id) === null),
    makings,
    supplies,
    buying,
    crowded: trade.shelf === null ? [] : overfull(lying, moves, trade.shelf),
    agenda: agendaOf({ today, offsetMin, rows, unmould, ready, weigh, batches: proposal.batches, buying, orders: open, stands }),
  };
};

/** What is handed over or on its way is asked for no longer. */
const wantsOf = (orders: readonly Order[], stands: Outlook['stands']): readonly Wanted[] =>
  orders.flatMap(({ id, due }) =>
    (stands[id]?.lines ?? []).flatMap(({ formula, open, label }): readonly Wanted[] =>
      open === 0 ? [] : [{ order: id, formula, bars: open, label: label === null ? null : numberOf(label), due }],
    ),
  );

/** A log stands in its mould until it is out; one that is late is out tomorrow, as far as anybody knows. */
const busyOf = (
  row: BarsSummary,
  makings: readonly Making[],
  offsetMin: number,
  today: Day,
): readonly { readonly mould: string; readonly from: Day; readonly until: Day }[] => {
  const { cut, mould, moulds, formula, poured } = row;
  if (cut !== null || isOut(row) || mould.id === null) return [];
  const late = makings.find((one) => one.formula === formula.id)?.unmould.late ?? 2;
  const from = dayOf(poured, offsetMin);
  const until = addDays(from, late);
  const { id } = mould;
  return Array.from({ length: moulds }, () => ({ mould: id, from, until: until > today ? until : addDays(today, 1) }));
};

/** Bars of a log that stands in its mould, on the day it is likely cut. */
const comingOf = ({ cut, formula, mould, moulds, poured }: BarsSummary, makings: readonly Making[], offsetMin: number, today: Day) => {
  const making = cut === null ? makings.find((one) => one.formula === formula.id) : undefined;
  if (making === undefined) return [];
  const day = addDays(dayOf(poured, offsetMin), making.unmould.likely + making.cut.likely);
  return [{ day: day < today ? today : day, bars: (making.each[mould.id ?? ''] ?? 0) * moulds }];
};

const MG = 1000;

const packOf = (of: Goods | undefined, times: number): number | null => {
  const pack = of?.pack == null ? null : numberOf(of.pack);
  return pack === null || pack <= 0 ? null : pack * times;
};

const boughtOf = ({ goods, onHand, wrapped }: Facts): readonly Bought[] => {
  const drawn = drawnBy(wrapped);
  const materials = new Set([...Object.keys(onHand), ...goods.filter(({ kind }) => kind === 'material').map(({ id }) => id)]);
  return [
    ...[...materials].map((thing) => {
      const of = goods.find(({ id, kind }) => id === thing && kind === 'material');
      return { thing, onHand: onHand[thing] ?? 0, pack: packOf(of, MG), days: of?.days ?? 0 };
    }),
    ...goods.flatMap((of) =>
      of.kind === 'wrap' ? [{ thing: of.id, onHand: piecesOnHand(of, drawn), pack: packOf(of, 1), days: of.days ?? 0 }] : [],
    ),
  ];
};
