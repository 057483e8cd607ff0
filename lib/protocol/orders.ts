import type { Day } from '#lib/units/day';
import type { Goods, Order, Trade } from '#lib/work/orders/documents';
import type { Outlook } from '#lib/work/orders/outlook';
import type { Drawn } from '#lib/work/orders/wraps';

/** GET /api/orders: what is due, what it needs, and what must happen when. */
export interface OrdersPage {
  readonly today: Day;
  /** Forecasts still being worked out: what follows counts those that are there. */
  readonly working: number;
  readonly outlook: Outlook;
  readonly orders: readonly Order[];
  readonly trade: Trade;
  readonly goods: readonly Goods[];
  /** mg by material, received less what was weighed; left out where nobody has said what came in. */
  readonly onHand: Readonly<Record<string, number>>;
  /** Pieces of wraps that bars have taken. */
  readonly drawn: Drawn;
  /** By id: formulas, moulds, materials and wraps, buyers. */
  readonly names: Readonly<Record<string, string>>;
}

/** GET /api/orders/wraps: what bars are sold in, and what they have taken of it. */
export interface WrapsPage {
  readonly wraps: readonly Goods[];
  readonly drawn: Drawn;
}

/** GET /api/orders/cost?bars=: what one bar of a lot costs; `null` where it was not cut yet. */
export interface CostPage {
  readonly money: string;
  readonly cost: {
    readonly materials: number;
    readonly packaging: number;
    readonly time: number;
    readonly whole: number;
    /** Names of what nobody has noted a price of. */
    readonly unknown: readonly string[];
    readonly of: readonly { readonly name: string; readonly each: number }[];
  } | null;
}
