import * as z from 'zod/mini';
import type { CostPage, OrdersPage, WrapsPage } from '#lib/protocol/orders';
import { ask } from './api';
import type { Answer } from './api';

const list = z.array(z.looseObject({}));

/** The outline of each answer, as in `api`. */
const OUTLINES = {
  page: z.looseObject({
    today: z.string(),
    outlook: z.looseObject({
      reserved: list,
      batches: list,
      clashes: list,
      buying: list,
      agenda: list,
      crowded: list,
      stands: z.looseObject({}),
    }),
    orders: list,
    trade: z.looseObject({ days: z.array(z.number()) }),
    drawn: z.looseObject({}),
    names: z.looseObject({}),
  }),
  wraps: z.looseObject({ wraps: list, drawn: z.looseObject({}) }),
  cost: z.looseObject({ money: z.string(), cost: z.nullable(z.looseObject({ whole: z.number() })) }),
};

/** Where a calendar program finds the days. */
export const CALENDAR = '/api/orders/calendar.ics';

/** Orders, what they ask of the workshop, and what a bar costs. Nothing throws. */
export const ordersApi = {
  page: (): Promise<Answer<OrdersPage>> => ask(OUTLINES.page, '/api/orders'),
  wraps: (): Promise<Answer<WrapsPage>> => ask(OUTLINES.wraps, '/api/orders/wraps'),
  cost: (bars: string): Promise<Answer<CostPage>> => ask(OUTLINES.cost, `/api/orders/cost?bars=${encodeURIComponent(bars)}`),
} as const;
