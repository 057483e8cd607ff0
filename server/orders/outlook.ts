import type { OrdersPage, WrapsPage } from '#lib/protocol/orders';
import { LAST_DAY } from '#lib/soap/shrink/index';
import { dayOf } from '#lib/units/day';
import type { Day } from '#lib/units/day';
import type { Clock } from '#lib/units/time';
import type { CureKept, UnmouldKept } from '#lib/work/bars/documents';
import { readyByDays, ruleOf } from '#lib/work/bars/cure';
import { USUAL_CURE } from '#lib/work/bars/documents';
import type { BarsSummary } from '#lib/work/bars/index';
import { numberOf, planOf, withCatalogue } from '#lib/work/formula/index';
import type { Formula, Lot, Mould, PlanContext, Preparation } from '#lib/work/formula/index';
import { mg } from '#lib/units/mass';
import { faultOf } from '#lib/work/lots/fitness';
import { stockOf } from '#lib/work/lots/stock';
import { weighDay } from '#lib/work/orders/agenda';
import { NO_TRADE } from '#lib/work/orders/documents';
import type { Goods, Order, Trade } from '#lib/work/orders/documents';
import { outlookOf } from '#lib/work/orders/outlook';
import { takesOf } from '#lib/work/orders/ripening';
import { drawnBy } from '#lib/work/orders/wraps';
import { contextOf, documentsOf, makersOwn } from '#lib/work/shelf/context';
import type { Running } from '../http/deps';
import type { Forecasts } from './forecasts';

/** Lots that are gone still tell what a batch gives and how long it takes: so many of the newest are looked at beside those that are there. */
const EARLIER = 60;

const rowsOf = async ({ store }: Running): Promise<readonly BarsSummary[]> => {
  const [open, earlier] = [await store.bars.open(), (await store.bars.list({ before: null, limit: EARLIER })).bars];
  const ids = new Set(open.map(({ id }) => id));
  return [...open, ...earlier.filter(({ id }) => !ids.has(id))];
};

/** Newest lots of each formula that tell how long the next will take. */
const TELLING = 3;

/** Lots whose forecast is of use: those with bars to promise, and of each formula its newest. */
const telling = (rows: readonly BarsSummary[]): readonly BarsSummary[] => {
  const seen = new Map<string, number>();
  return rows
    .filter(({ cut }) => cut !== null)
    .toSorted((a, b) => b.poured - a.poured)
    .filter(({ formula, counts }) => {
      const before = seen.get(formula.id) ?? 0;
      seen.set(formula.id, before + 1);
      return counts.shelf > 0 || before < TELLING;
    });
};

/** mg of each material, as far as it was ever said what came in; of lots that may be weighed from. */
const onHandOf = (lots: readonly Lot[], used: ReadonlyMap<string, number>, today: Day): Readonly<Record<string, number>> => {
  const sums: Record<string, number> = {};
  for (const lot of lots) {
    const left = faultOf(lot, today) !== null ? null : stockOf(lot, mg(used.get(lot.id) ?? 0)).left;
    if (left !== null) sums[lot.material] = (sums[lot.material] ?? 0) + left;
  }
  return sums;
};

/** Nobody mixes preparations of preparations deeper than this; one that holds itself ends here. */
const DEEPEST = 8;

/** What is made here is not bought, but what it is made of: where nothing of it stands ready, that is needed. */
const apartBy = (preparations: readonly Preparation[], onHand: Readonly<Record<string, number>>) => {
  const apart = (id: string, mass: number, depth = 0): readonly (readonly [string, number])[] => {
    const made = depth < DEEPEST && (onHand[id] ?? 0) <= 0 ? preparations.find((one) => one.id === id) : undefined;
    if (made === undefined) return [[id, mass]];
    return made.parts.flatMap(({ material, percent }) => apart(material, Math.ceil((mass * (numberOf(percent) ?? 0)) / 100), depth + 1));
  };
  return apart;
};

/** mg of each material one batch of a formula takes; `null` where nothing can be planned of it. */
const takesBy = (formulas: readonly Formula[], context: PlanContext, onHand: Readonly<Record<string, number>>) => {
  const apart = apartBy(context.preparations, onHand);
  const known = new Map<string, Readonly<Record<string, number>> | null>();
  const masses = (id: string): Readonly<Record<string, number>> | null => {
    const formula = formulas.find((one) => one.id === id);
    const answer = formula === undefined ? null : planOf(formula, context);
    if (answer?.kind !== 'plan') return null;
    const sums: Record<string, number> = {};
    for (const { material, target } of answer.plan.lines)
      for (const [of, mass] of apart(material.id, target)) sums[of] = (sums[of] ?? 0) + mass;
    return sums;
  };
  return (id: string) => {
    const there = known.get(id);
    if (there !== undefined) return there;
    const found = masses(id);
    known.set(id, found);
    return found;
  };
};

/** Of bars whose forecasts are on their way. */
const PENDING = { early: 0, likely: LAST_DAY, late: LAST_DAY };

/** Everything of orders as of now. */
export const ordersPage = async (
  running: Running,
  buyers: ReadonlyMap<string, string>,
  forecasts: Forecasts,
  clock: Clock,
): Promise<OrdersPage> => {
  const [wall, offsetMin] = [clock.wall(), clock.offsetMinutes()];
  const today = dayOf(wall, offsetMin);
  const shelf = running.store.shelf.now();
  const rows = await rowsOf(running);
  const cure = makersOwn<CureKept>(shelf, 'cure') ?? USUAL_CURE;
  const { found, working } = forecasts.now(telling(rows), rows, cure, wall);
  const context = withCatalogue(contextOf(shelf, running.scales));
  const formulas = documentsOf<Formula>(shelf, 'formula');
  const lots = documentsOf<Lot>(shelf, 'lot');
  const trade = makersOwn<Trade>(shelf, 'trade') ?? NO_TRADE;
  const [orders, goods, moulds] = [
    documentsOf<Order>(shelf, 'order'),
    documentsOf<Goods>(shelf, 'goods'),
    documentsOf<Mould>(shelf, 'mould'),
  ];
  const onHand = onHandOf(lots, await running.store.lots.used(), today);
  const wrapped = await running.store.bars.wrapped();
  const weigh = new Map(
    [...found].flatMap(([id, { from, forecast }]) =>
      forecast.next === null ? [] : [[id, weighDay(from, forecast.next.day, offsetMin)] as const],
    ),
  );
  const byDays = rows.flatMap((row) => {
    const ready = readyByDays(row, ruleOf(cure));
    return ready === null ? [] : [[row.id, ready] as const];
  });
  const outlook = outlookOf({
    today,
    offsetMin,
    rows,
    forecasts: new Map([...byDays, ...[...found].map(([id, { from, forecast }]) => [id, { from, ready: forecast.ready }] as const)]),
    formulas,
    moulds,
    unmould: documentsOf<UnmouldKept>(shelf, 'unmould'),
    trade,
    // While forecasts are missing nothing of what follows is shown: it need not be worked out well.
    cure: () => (working > 0 ? PENDING : takesOf(forecasts.unweighed(rows, cure).ready)),
    orders,
    goods,
    onHand,
    takes: takesBy(formulas, context, onHand),
    weigh,
    serving: await running.store.bars.serving(),
    wrapped,
  });
  const names = Object.fromEntries([
    ...[...context.materials, ...context.preparations, ...formulas, ...moulds].map(({ id, name }) => [id, name] as const),
    ...goods.flatMap(({ id, kind, name }) => (kind === 'wrap' ? [[id, name] as const] : [])),
    ...orders.map(({ id, name }) => [id, name] as const),
    ...buyers,
  ]);
  return { today, working, outlook, orders, trade, goods, onHand, drawn: drawnBy(wrapped), names };
};

/** What bars are sold in, and what they have taken of it. */
export const wrapsPage = async ({ store }: Running): Promise<WrapsPage> => ({
  wraps: documentsOf<Goods>(store.shelf.now(), 'goods').filter(({ kind }) => kind === 'wrap'),
  drawn: drawnBy(await store.bars.wrapped()),
});
