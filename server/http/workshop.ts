import { Hono } from 'hono';
import type { WorkshopPage } from '#lib/protocol/shelf';
import { contextOf, habitsOf } from '#lib/work/shelf/context';
import { standing } from '#lib/work/shelf/shelf';
import type { ApiDeps } from './deps';

/** GET /api/workshop: what a page computes plans with. The catalogue comes with the page. */
export const workshop = (deps: ApiDeps): Hono =>
  new Hono().get('/', (c) => {
    const { store, scales } = deps.running();
    const shelf = store.shelf.now();
    const formulas = Object.fromEntries(standing(shelf, 'formula').map(({ id, newest }) => [id, newest.version]));
    return c.json({ context: contextOf(shelf, scales), habits: habitsOf(shelf), formulas } satisfies WorkshopPage);
  });
