import { Hono } from 'hono';
import type { LotsUsed } from '#lib/protocol/lots';
import { as } from '#lib/units/id';
import { foldBatch } from '../bench/restore';
import { followBars, followLot } from '../lots/follow';
import type { FollowParts } from '../lots/follow';
import type { ApiDeps } from './deps';
import { problem } from './problem';

export const followParts = (deps: ApiDeps): FollowParts => {
  const { store, bars } = deps.running();
  return { store, barsState: (id) => bars.state(id), batchState: (id) => foldBatch(store.bench, as(id)), people: deps.people() };
};

/** GET /api/lots: what batches took of each. */
export const lots = (deps: ApiDeps): Hono =>
  new Hono().get('/', async (c) => c.json({ used: Object.fromEntries(await deps.running().store.lots.used()) } satisfies LotsUsed));

/** GET /api/follow/lot?id= and /api/follow/bars?mark= */
export const follow = (deps: ApiDeps): Hono =>
  new Hono()
    .get('/lot', async (c) => {
      const found = await followLot(followParts(deps), c.req.query('id') ?? '');
      return found === null
        ? problem(c, 404, 'No such lot was ever received or weighed.', 'Choose it from the list of lots.')
        : c.json(found);
    })
    .get('/bars', async (c) => {
      const found = await followBars(followParts(deps), c.req.query('mark') ?? '');
      return found === null
        ? problem(c, 404, 'No batch of this workshop bears that mark.', 'Read it from the label again: 26-11, or 26-11/1 for its bars.')
        : c.json(found);
    });
