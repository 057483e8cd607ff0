import { Hono } from 'hono';
import type { LotsUsed } from '#lib/protocol/lots';
import { as } from '#lib/units/id';
import { foldBatch } from '../bench/restore';
import { batchOf, followBars, followLot } from '../lots/follow';
import { followWrap, wrapLots } from '../lots/follow-wrap';
import type { FollowParts } from '../lots/follow';
import type { ApiDeps } from './deps';
import { problem } from './problem';

export const followParts = (deps: ApiDeps): FollowParts => {
  const { store, bars } = deps.running();
  return { store, barsState: (id) => bars.state(id), batchState: (id) => foldBatch(store.bench, as(id)), people: deps.people() };
};

/** GET /api/lots: what batches took of each, and what bars are wrapped in. */
export const lots = (deps: ApiDeps): Hono =>
  new Hono().get('/', async (c) => {
    const { store } = deps.running();
    return c.json({ used: Object.fromEntries(await store.lots.used()), wraps: await wrapLots(store) } satisfies LotsUsed);
  });

/** GET /api/follow/lot?id=, /api/follow/wrap?goods=&lot= (without a lot: pieces in none) and /api/follow/bars?mark= */
export const follow = (deps: ApiDeps): Hono =>
  new Hono()
    .get('/lot', async (c) => {
      const found = await followLot(followParts(deps), c.req.query('id') ?? '');
      return found === null
        ? problem(c, 404, 'No such lot was ever received or weighed.', 'Choose it from the list of lots.')
        : c.json(found);
    })
    .get('/wrap', async (c) => {
      const parts = followParts(deps);
      const { store } = parts;
      const piece = { goods: c.req.query('goods') ?? '', lot: c.req.query('lot') ?? null };
      const found = await followWrap(store, piece, async (batch) => {
        const row = await store.batches.get(as(batch));
        return row === null ? null : batchOf(parts, row, 0);
      });
      return found === null
        ? problem(c, 404, 'No such wrap was ever kept or used here.', 'Choose it from the list of lots.')
        : c.json(found);
    })
    .get('/bars', async (c) => {
      const found = await followBars(followParts(deps), c.req.query('mark') ?? '');
      return found === null
        ? problem(c, 404, 'No batch of this workshop bears that mark.', 'Read it from the label again: 26-11, or 26-11/1 for its bars.')
        : c.json(found);
    });
