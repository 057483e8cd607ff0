import { Hono } from 'hono';
import * as z from 'zod/mini';
import { BATCH_STATUSES } from '#lib/work/batch/index';
import { batchPageOf } from './batch-page';
import type { ApiDeps } from './deps';
import { noBatch, problem } from './problem';

const MOST_ROWS = 200;
const page = z.object({
  before: z.optional(z.string().check(z.minLength(1), z.maxLength(80))),
  status: z.optional(z.enum(BATCH_STATUSES)),
  limit: z._default(z.coerce.number().check(z.int(), z.gte(1), z.lte(MOST_ROWS)), 50),
});

const ALLOWED = `limit is a whole number from 1 to ${MOST_ROWS}, status one of ${BATCH_STATUSES.join(', ')}.`;

/** GET /api/batches?before=&limit=&status= and GET /api/batches/:id (the review). */
export const batches = (deps: ApiDeps): Hono =>
  new Hono()
    .get('/', async (c) => {
      const asked = page.safeParse(c.req.query());
      if (!asked.success) return problem(c, 400, 'The page asked for is none.', ALLOWED);
      const { before, limit, status } = asked.data;
      return c.json(await deps.running().store.batches.list({ before: before ?? null, limit, status: status ?? null }));
    })
    .get('/:id', async (c) => {
      const found = await batchPageOf(deps, c.req.param('id'));
      return found === null ? noBatch(c) : c.json(found.page);
    });
