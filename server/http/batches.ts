import { Hono } from 'hono';
import * as z from 'zod/mini';
import { DEVIATIONS, LONGEST_SEARCH } from '#lib/protocol/find';
import type { FormulaNames } from '#lib/protocol/find';
import type { MouldsFor } from '#lib/protocol/http';
import { as } from '#lib/units/id';
import { batterOf, mouldsToName } from '#lib/work/batch/batter';
import { BATCH_STATUSES } from '#lib/work/batch/index';
import type { Mould } from '#lib/work/formula/index';
import { mouldOffers } from '#lib/work/formula/mould-offers';
import { documentsOf } from '#lib/work/shelf/context';
import { foldBatch } from '../bench/restore';
import { batchPageOf } from './batch-page';
import type { ApiDeps } from './deps';
import { noBatch, problem } from './problem';

const MOST_ROWS = 200;
const moment = z.coerce.number().check(z.int(), z.gte(0), z.lte(8.64e15));
const page = z.object({
  before: z.optional(z.string().check(z.minLength(1), z.maxLength(80))),
  status: z.optional(z.enum(BATCH_STATUSES)),
  words: z.optional(z.string().check(z.maxLength(LONGEST_SEARCH))),
  from: z.optional(moment),
  to: z.optional(moment),
  formula: z.optional(z.string().check(z.minLength(1), z.maxLength(200))),
  deviation: z.optional(z.enum([...DEVIATIONS, 'any'])),
  limit: z._default(z.coerce.number().check(z.int(), z.gte(1), z.lte(MOST_ROWS)), 50),
});

const ALLOWED = `limit is a whole number from 1 to ${MOST_ROWS}, status one of ${BATCH_STATUSES.join(', ')}, deviation one of any, ${DEVIATIONS.join(', ')}; from and to are milliseconds since 1970, words at most ${LONGEST_SEARCH} letters.`;

/**
 * GET /api/batches?before=&limit=&status=&words=&from=&to=&formula=&deviation=, GET /api/batches/formulas (their names), GET
 * /api/batches/:id (the review) and GET /api/batches/:id/moulds (what one without moulds could be poured into).
 */
export const batches = (deps: ApiDeps): Hono =>
  new Hono()
    .get('/', async (c) => {
      const asked = page.safeParse(c.req.query());
      if (!asked.success) return problem(c, 400, 'The page asked for is none.', ALLOWED);
      const { before, limit, status, ...find } = asked.data;
      return c.json(await deps.running().store.batches.list({ before: before ?? null, limit, status: status ?? null, find }));
    })
    .get('/formulas', async (c) => {
      const body: FormulaNames = { formulas: await deps.running().store.batches.formulas() };
      return c.json(body);
    })
    .get('/:id/moulds', async (c) => {
      const { store } = deps.running();
      const batch = await foldBatch(store.bench, as(c.req.param('id')));
      if (batch === null) return noBatch(c);
      const moulds = mouldsToName(batch) ? mouldOffers(documentsOf<Mould>(store.shelf.now(), 'mould'), await store.bars.open()) : [];
      const body: MouldsFor = { batterMl: batterOf(batch).ml, moulds };
      return c.json(body);
    })
    .get('/:id', async (c) => {
      const found = await batchPageOf(deps, c.req.param('id'));
      return found === null ? noBatch(c) : c.json(found.page);
    });
