import { setImmediate } from 'node:timers/promises';
import { Hono } from 'hono';
import * as z from 'zod/mini';
import { MOST_POINTS } from '#lib/protocol/history';
import type { HistoryPage } from '#lib/protocol/history';
import { parsed } from '#lib/record/lines';
import type { Entry } from '#lib/work/batch/index';
import { pointsOf } from '#lib/work/history/points';
import type { BatchPoints } from '#lib/work/history/points';
import { batchPageOf } from './batch-page';
import type { ApiDeps } from './deps';
import { namesOf } from './person';
import { problem } from './problem';

const asked = z.object({
  formula: z.optional(z.string().check(z.minLength(1), z.maxLength(200))),
  limit: z._default(z.coerce.number().check(z.int(), z.gte(1), z.lte(MOST_POINTS)), 60),
});

/** GET /api/history?formula=&limit=: what the newest finished batches add to a picture of many. */
export const history = (deps: ApiDeps): Hono =>
  new Hono().get('/', async (c) => {
    const how = asked.safeParse(c.req.query());
    if (!how.success) return problem(c, 400, 'The picture asked for is none.', `limit is a whole number from 1 to ${MOST_POINTS}.`);
    const { formula, limit } = how.data;
    const { store, scales } = deps.running();
    const rows = await store.batches.list({ before: null, limit, status: 'closed', find: { formula } });
    const batches: BatchPoints[] = [];
    for (const { id } of rows.batches) {
      const points = await pointsIn(deps, id);
      if (points !== null) batches.unshift(points);
      // The bench comes first: between two batches whatever waits has its turn.
      await setImmediate();
    }
    const body: HistoryPage = {
      batches,
      more: rows.next !== null,
      scales: Object.fromEntries(scales.map(({ id, name }) => [id, name])),
      people: namesOf(deps.people()),
    };
    return c.json(body);
  });

const pointsIn = async (deps: ApiDeps, id: string): Promise<BatchPoints | null> => {
  const found = await batchPageOf(deps, id);
  return found === null ? null : pointsOf(found.page, found.lines.map(({ text }) => parsed(text)) as readonly Entry[]);
};
